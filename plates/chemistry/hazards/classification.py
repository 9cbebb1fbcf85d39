"""What the harmonised table of the European Union says of a substance, at the strength it is used in.

A starting value only: the supplier's own safety data sheet goes before it, and what has no row here is not harmless.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from plates.chemistry.hazards.statements import PICTOGRAMS, STATEMENTS, statement
from plates.chemistry.sentences import Sentence
from plates.chemistry.values import ChemistryValueError, Exact, Source, exact

Signal = Literal["", "Warning", "Danger"]
SHEET_FIRST = "The supplier's safety data sheet overrides this."
NO_ROW = "No row here: read the supplier's safety data sheet before it is opened."


@dataclass(frozen=True, slots=True)
class Classification:
    """Codes of the statements, of the pictograms, and the signal word, from a strength (per cent by weight) upward."""

    statements: tuple[str, ...]
    pictograms: tuple[str, ...]
    signal: Signal
    from_per_cent: Fraction = Fraction(0)
    from_excluded: bool = False

    def __post_init__(self) -> None:
        unknown = [code for code in self.statements if code not in STATEMENTS]
        unknown += [code for code in self.pictograms if code not in PICTOGRAMS]
        if unknown:
            raise ChemistryValueError(f"No hazard code is called {', '.join(unknown)}.")
        if bool(self.pictograms) != bool(self.signal):
            raise ChemistryValueError("A label has both a pictogram and a signal word, or neither.")
        exact("The strength in per cent", self.from_per_cent, least=0, most=100)

    def holds_at(self, per_cent: Fraction) -> bool:
        return per_cent > self.from_per_cent or (per_cent == self.from_per_cent and not self.from_excluded)


@dataclass(frozen=True, slots=True)
class Substance:
    """A substance with its CAS number, its row in the table (index number; empty when it has none) and classes, the
    strongest first; `suppliers` are codes that their sheets add, `organs` what H370, H372 and H373 name."""

    key: str
    name: str
    cas: str
    index: str
    classes: tuple[Classification, ...]
    source: Source
    suppliers: tuple[str, ...] = ()
    organs: str = "organs"
    note: str = ""

    def __post_init__(self) -> None:
        floors = [each.from_per_cent for each in self.classes]
        if not floors or floors != sorted(floors, reverse=True):
            raise ChemistryValueError(f"The classes of {self.name} must go from the strongest down.")
        for code in self.suppliers:
            if code not in STATEMENTS:
                raise ChemistryValueError(f"No hazard code is called {code}.")

    def at(self, per_cent: Exact = 100) -> Classification:
        """The class at so many per cent by weight; the empty one below the least strength that the table names."""
        strength = exact("The strength in per cent", per_cent, above=0, most=100)
        return next((each for each in self.classes if each.holds_at(strength)), UNCLASSIFIED)


UNCLASSIFIED = Classification((), (), "")


@dataclass(frozen=True, slots=True)
class Label:
    """What to show beside a substance: codes in words, pictograms, signal word, where from, and what overrides it."""

    name: str
    signal: Signal
    statements: tuple[tuple[str, Sentence], ...]
    pictograms: tuple[str, ...]
    suppliers_add: tuple[tuple[str, Sentence], ...]
    source: Source
    note: str
    overridden_by: str = SHEET_FIRST


def label(substance: Substance, per_cent: Exact = 100) -> Label:
    """The label of a substance at that strength."""
    found = substance.at(per_cent)
    return Label(
        substance.name,
        found.signal,
        _worded(found.statements, substance.organs),
        found.pictograms,
        _worded(substance.suppliers, substance.organs),
        substance.source,
        substance.note,
    )


def _worded(codes: Iterable[str], organs: str) -> tuple[tuple[str, Sentence], ...]:
    return tuple((code, statement(code, organs)) for code in codes)
