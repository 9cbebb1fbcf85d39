"""Cautions to show where the work is done. Local codes, suppliers' sheets and licensed services go before them."""

from collections.abc import Iterable
from dataclasses import dataclass

from plates.chemistry.values import ChemistryValueError, Confidence

DEFER = "Local codes, the suppliers' safety data sheets and licensed waste services go before this."

ACIDS = frozenset({"acetic_acid", "nitric_acid"})
# The iron developer is acid whatever is in the list: it is poured beside every fixer.
ACID_WORK = ACIDS | {"iron_sulfate"}
BURNS = frozenset({"ether", "ethanol", "methanol", "collodion", "nitrocellulose", "lavender_oil"})
CADMIUM = frozenset({"cadmium_bromide", "cadmium_iodide"})
CYANIDE = frozenset({"potassium_cyanide"})
HYPO = frozenset({"sodium_thiosulfate", "ammonium_thiosulfate"})
SILVER = frozenset({"silver_nitrate"})


@dataclass(frozen=True, slots=True)
class Caution:
    """A sentence shown when something of every one of these groups is at hand; no group: always."""

    key: str
    sentence: str
    confidence: Confidence
    groups: tuple[frozenset[str], ...] = ()

    def __post_init__(self) -> None:
        if not self.sentence.endswith("."):
            raise ChemistryValueError(f"The caution {self.key} must be a sentence.")

    def applies(self, present: frozenset[str]) -> bool:
        return all(group & present for group in self.groups)


CAUTIONS = (
    Caution(
        "cyanide_acid",
        "Cyanide and acid must never meet, and the iron developer is acid: they give off hydrogen cyanide, which kills."
        " Rinse the plate fully, and keep trays and waste apart.",
        "A",
        (CYANIDE, ACID_WORK),
    ),
    Caution(
        "cyanide",
        "Cyanide kills by a splash or a breath: never alone, never away, only where your law allows it.",
        "D",
        (CYANIDE,),
    ),
    Caution(
        "ether",
        "Ether boils at 35 °C; its vapour creeps along the floor and flashes back from far off. Air the room, ground"
        " metal cans when pouring, and test an opened can after six months.",
        "B",
        (frozenset({"ether", "collodion"}),),
    ),
    Caution(
        "flame",
        "No flame, hot plate or heater near open collodion or varnish; warm varnish at another place or another time.",
        "B",
        (BURNS,),
    ),
    Caution(
        "guncotton", "Dry guncotton explodes: buy it as a solution.", "A", (frozenset({"nitrocellulose"}),)
    ),
    Caution(
        "silver",
        "Goggles always: silver nitrate blinds. In the eye, rinse and get a doctor at once. It stains skin and cloth,"
        " and feeds fire: keep it from whatever burns.",
        "D",
        (SILVER,),
    ),
    Caution(
        "silver_ammonia",
        "Silver nitrate with ammonia can become explosive on standing: never keep the residue.",
        "E",
        (SILVER, frozenset({"ammonia"})),
    ),
    Caution("acid", "Acid into water, never water into acid; gloves and a face shield.", "E", (ACIDS,)),
    Caution(
        "nitric_spirit",
        "Keep nitric acid away from ether and alcohol: they react violently.",
        "E",
        (frozenset({"nitric_acid"}), BURNS),
    ),
    Caution(
        "hypo_acid",
        "Acid in hypo gives off sulphur dioxide: rinse the developer off first.",
        "B",
        (HYPO, ACID_WORK),
    ),
    Caution(
        "cadmium",
        "Cadmium salts cause or may cause cancer: weigh them without raising dust, or take a formula without cadmium.",
        "A",
        (CADMIUM,),
    ),
    Caution(
        "ammonium_bromide",
        "Ammonium bromide harms the unborn and the breast-fed: not while pregnant or breast-feeding.",
        "A",
        (frozenset({"ammonium_bromide"}),),
    ),
    Caution(
        "waste",
        "Fixer, developer rinse and tank residues hold silver: none down the drain untreated. Keep cyanide, ether,"
        " silver and cadmium waste apart.",
        "B",
        (SILVER | HYPO | CADMIUM | CYANIDE | frozenset({"iron_sulfate"}),),
    ),
    Caution(
        "always",
        "Air the room, and neither eat nor drink there. Eyewash, spill kit, safety sheets and the number of the poison"
        " centre are at hand.",
        "D",
    ),
)


def cautions_for(present: Iterable[str]) -> tuple[Caution, ...]:
    """The cautions for work with these substances (their keys), the deadliest first."""
    at_hand = frozenset(present)
    return tuple(each for each in CAUTIONS if each.applies(at_hand))
