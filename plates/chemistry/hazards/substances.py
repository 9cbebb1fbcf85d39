"""The substances of the wet plate that burn, poison or corrode, as the harmonised table has them.

Annex VI of Regulation (EC) 1272/2008, read in data only: the agency's own table up to the 17th amendment (ATP 17), and
a public copy through ATP 22 (Regulation (EU) 2024/2564). Neither is the legal text; look for later amendments.
"""

from collections.abc import Iterable
from fractions import Fraction

from plates.chemistry.hazards.classification import Classification, Label, Signal, Substance, label
from plates.chemistry.values import Confidence, Source


def _class(
    statements: str, pictograms: str, signal: Signal = "", at: int = 0, *, excluded: bool = False
) -> Classification:
    codes = tuple(f"GHS{number}" for number in pictograms.split())
    return Classification(tuple(statements.split()), codes, signal, Fraction(at), excluded)


def _source(text: str, confidence: Confidence) -> Source:
    return Source(text, confidence)


TABLE_17 = _source("Annex VI of CLP, the agency's table up to ATP 17", "A")
TABLE_22 = _source("Annex VI of CLP, a public copy through ATP 22", "A")
GROUP = _source("Annex VI of CLP up to ATP 17, by its group entry only", "A")
SHEETS = _source("suppliers' safety data sheets; no entry in Annex VI up to ATP 17", "B")
MEMORY = _source("from memory; no entry in Annex VI up to ATP 17", "E")

SOLVENTS = (
    Substance(
        "ether", "diethyl ether", "60-29-7", "603-022-00-4",
        (_class("H224 H302 H336 EUH019 EUH066", "02 07", "Danger"),), TABLE_17,
    ),
    Substance(
        "ethanol", "ethanol", "64-17-5", "603-002-00-5", (_class("H225", "02", "Danger"),), TABLE_17, ("H319",),
    ),
    Substance(
        "methanol", "methanol", "67-56-1", "603-001-00-X",
        (_class("H225 H301 H311 H331 H370", "02 06 08", "Danger"),),
        _source("Annex VI of CLP, from memory", "E"), note="Take ethanol instead.",
    ),
    Substance(
        "chloroform", "chloroform (old varnishes)", "67-66-3", "602-006-00-4",
        (_class("H302 H315 H319 H331 H351 H361d H372", "06 08", "Danger"),), TABLE_17, note="Leave it out.",
    ),
    Substance(
        "nitrocellulose", "nitrocellulose, dry (guncotton)", "9004-70-0", "603-037-00-6",
        (_class("H201", "01", "Danger"),), TABLE_17,
        note="Note T: wetted and dissolved grades are classed otherwise. Buy it as a solution.",
    ),
    Substance(
        "collodion", "collodion", "9004-70-0", "",
        (_class("H224 H302 H336 EUH019 EUH066", "02 07", "Danger"),),
        _source("worked out from its ether and alcohol", "C"),
        note="A mixture: salted with cadmium it carries the codes of cadmium too.",
    ),
    Substance(
        "lavender_oil", "lavender oil", "8000-28-0", "", (_class("H304 H315 H317 H319", "08 07", "Danger"),), SHEETS,
        note="Sheets differ, some add H411; its linalool is harmonised as H317 (603-235-00-2).",
    ),
    Substance(
        "sandarac", "sandarac resin", "9000-57-1", "", (_class("", ""),), MEMORY,
        note="Mostly not classed; its dust may sensitise.",
    ),
)  # fmt: skip

SALTS = (
    Substance(
        "silver_nitrate", "silver nitrate", "7761-88-8", "047-001-00-2",
        (_class("H272 H314 H400 H410", "03 05 09", "Danger"),), TABLE_22,
        note="A stronger class was proposed in 2023; whether it was taken up was not seen.",
    ),
    Substance(
        "cadmium_bromide", "cadmium bromide", "7789-42-6", "048-001-00-5",
        (_class("H302 H312 H332 H400 H410", "06 08 09", "Danger"),), GROUP, ("H301", "H331", "H350", "H372"),
        note="The group entry is Warning with GHS07 and GHS09; suppliers show Danger, and so does this.",
    ),
    Substance(
        "cadmium_iodide", "cadmium iodide", "7790-80-9", "048-007-00-8",
        (_class("H301 H331 H351 H373 H400 H410", "06 08 09", "Danger"),), TABLE_17,
    ),
    Substance(
        "potassium_iodide", "potassium iodide", "7681-11-0", "", (_class("H372", "08", "Danger"),), SHEETS,
        organs="the thyroid", note="Another sheet has it as not hazardous.",
    ),
    Substance(
        "ammonium_iodide", "ammonium iodide", "12027-06-4", "", (_class("H315 H319 H335", "07", "Warning"),), MEMORY,
        ("H372",), organs="the thyroid", note="Some sheets have no class; treat it as an iodide.",
    ),
    Substance(
        "ammonium_bromide", "ammonium bromide", "12124-97-9", "035-005-00-7",
        (_class("H360FD H362 H372 H336 H319", "08 07", "Danger"),),
        _source("Annex VI of CLP since ATP 18, a public copy through ATP 22; pictograms worked out", "A"),
        organs="the nervous system", note="Not to be handled while pregnant or breast-feeding.",
    ),
    Substance("potassium_bromide", "potassium bromide", "7758-02-3", "", (_class("H319", "07", "Warning"),), MEMORY),
    Substance(
        "potassium_cyanide", "potassium cyanide", "151-50-8", "006-007-00-5",
        (_class("H300 H310 H330 H400 H410 EUH032", "06 09", "Danger"),), GROUP, ("H290", "H372"),
        note="Switched off by default: fix with sodium thiosulfate.",
    ),
    Substance(
        "sodium_thiosulfate", "sodium thiosulfate (hypo)", "10102-17-7", "", (_class("", ""),), SHEETS,
        note="Mostly not classed. Acid in it gives off sulphur dioxide.",
    ),
    Substance(
        "ammonium_thiosulfate", "ammonium thiosulfate", "7783-18-8", "", (_class("", ""),), MEMORY,
        note="Acid in it gives off sulphur dioxide (B), alkali gives off ammonia.",
    ),
    Substance(
        "iron_sulfate", "iron(II) sulfate, 7-hydrate", "7782-63-0", "026-003-01-4",
        (_class("H302 H315 H319", "07", "Warning", 25), _class("H302 H319", "07", "Warning")), TABLE_17,
    ),
    Substance(
        "iodine", "iodine", "7553-56-2", "053-001-00-3", (_class("H312 H332 H400", "07 09", "Warning"),), TABLE_17,
    ),
)  # fmt: skip

ACIDS = (
    Substance(
        "acetic_acid", "acetic acid", "64-19-7", "607-002-00-6",
        (
            _class("H226 H314", "02 05", "Danger", 90),
            _class("H314", "05", "Danger", 25),
            _class("H315 H319", "07", "Warning", 10),
        ), TABLE_17,
    ),
    Substance(
        "nitric_acid", "nitric acid", "7697-37-2", "007-030-00-3",
        (
            _class("H272 H330 H314 EUH071", "03 05 06", "Danger", 70, excluded=True),
            _class("H272 H331 H314 EUH071", "03 05 06", "Danger", 65),
            _class("H331 H314 EUH071", "05 06", "Danger", 5),
        ),
        _source("Annex VI of CLP, ATP 15; above 70 % its entry 007-004-00-1", "A"), ("H290",),
        note="How toxic a weak acid is to breathe is worked out for each; the stronger word is kept.",
    ),
)  # fmt: skip

SUBSTANCES = {each.key: each for each in (*SOLVENTS, *SALTS, *ACIDS)}


def labels_of(keys: Iterable[str]) -> tuple[Label, ...]:
    """The labels of these substances undiluted, Danger first; what has no row is left out (see recipes.unlisted)."""
    found = [label(SUBSTANCES[key]) for key in sorted(set(keys)) if key in SUBSTANCES]
    return tuple(sorted(found, key=lambda each: ("Danger", "Warning", "").index(each.signal)))
