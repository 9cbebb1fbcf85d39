"""The book of one bath, entry by entry: what it was made with, what plates took, what was added, what was measured.

What is not measured is reckoned on from the last measurement. Each step is rounded to a thousand-millionth of a
millilitre or gram, far below what anybody measures: exact fractions would grow with every plate.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field
from fractions import Fraction
from typing import TypeAlias

from plates.chemistry.bath.density import STRONGEST, density
from plates.chemistry.bath.dosing import Bath
from plates.chemistry.bath.drag_out import USUAL, CarryOff, after_plates, silver_nitrate_of_plate
from plates.chemistry.bath.strength import Strength
from plates.chemistry.values import ChemistryValueError, nearest

STEP = Fraction(1, 10**9)


@dataclass(frozen=True, slots=True)
class Dipped:
    """A plate of so many cm² went through the bath; `name` is what it is called (its size)."""

    area_cm2: Fraction
    name: str = ""


@dataclass(frozen=True, slots=True)
class Added:
    """Grams of dry silver nitrate, and millilitres of a liquid holding so many grams a litre (0: water, acid)."""

    salt_grams: Fraction = Fraction(0)
    millilitres: Fraction = Fraction(0)
    grams_per_litre: Fraction = Fraction(0)


@dataclass(frozen=True, slots=True)
class PouredOff:
    millilitres: Fraction


@dataclass(frozen=True, slots=True)
class Measured:
    """What a reading found: strength, volume or both; None where that was not measured."""

    strength: Strength | None = None
    millilitres: Fraction | None = None


Entry: TypeAlias = Dipped | Added | PouredOff | Measured


@dataclass(frozen=True, slots=True)
class Point:
    """The strength after so many plates, measured or reckoned; `said` is what the book had before a measurement."""

    plates: int
    strength: Strength
    measured: bool
    said: Strength | None = None


@dataclass
class Book:
    """A bath as it is reckoned on. `millilitres` and `silver_grams` are None until they are known."""

    millilitres: Fraction | None
    silver_grams: Fraction | None
    rates: CarryOff = USUAL
    plates: int = 0
    # Since it was measured: grams of silver nitrate by the name of the plates, and how many those were.
    carried: dict[str, tuple[int, Fraction]] = field(default_factory=dict)
    points: list[Point] = field(default_factory=list)

    @property
    def carried_grams(self) -> Fraction:
        """Grams of silver nitrate that plates carried off since the bath was measured."""
        return sum((grams for _, grams in self.carried.values()), Fraction(0))

    @property
    def bath(self) -> Bath | None:
        """The bath as it should be now, where volume and silver are known and possible."""
        if not self.millilitres or self.silver_grams is None:
            return None
        grams_per_litre = self.silver_grams / self.millilitres * 1000
        return Bath(self.millilitres, Strength(grams_per_litre)) if grams_per_litre <= STRONGEST else None

    def enter(self, entry: Entry) -> None:
        """Reckon one entry in, the next in time."""
        if isinstance(entry, Measured):
            self._measured(entry)
        elif isinstance(entry, Dipped):
            self._dipped(entry)
        else:
            self._changed(entry)

    def mark(self, *, measured: bool = False, said: Strength | None = None) -> None:
        """Put the strength of now into the picture, where it is known."""
        if bath := self.bath:
            self.points.append(Point(self.plates, bath.strength, measured, said))

    def _measured(self, entry: Measured) -> None:
        before = self.bath
        self.millilitres = entry.millilitres or self.millilitres
        strength = entry.strength or (before.strength if before else None)
        if strength and self.millilitres:
            self.silver_grams = nearest(self.millilitres * strength.grams_per_litre / 1000, STEP)
        if entry.strength:
            self.carried = {}
            self.mark(measured=True, said=before.strength if before else None)

    def _dipped(self, entry: Dipped) -> None:
        self.plates += 1
        before = self.bath
        if before is None:
            return
        taken = silver_nitrate_of_plate(entry.area_cm2, before.strength, self.rates)
        plates, grams = self.carried.get(entry.name, (0, Fraction(0)))
        taken = nearest(min(taken, before.silver_nitrate_grams), STEP)
        self.carried[entry.name] = (plates + 1, grams + taken)
        try:
            after = after_plates(before, [entry.area_cm2], self.rates)
        except ChemistryValueError:
            # More plates than the bath can have silvered: the book is wrong, and only a reading puts it right.
            self.silver_grams = Fraction(0)
        else:
            self.millilitres = nearest(after.millilitres, STEP)
            self.silver_grams = nearest(after.silver_nitrate_grams, STEP)
        self.mark()

    def _changed(self, entry: Added | PouredOff) -> None:
        if self.millilitres is None:
            return
        if isinstance(entry, PouredOff):
            left = max(self.millilitres - entry.millilitres, Fraction(0))
            if self.silver_grams is not None and self.millilitres:
                self.silver_grams = nearest(self.silver_grams * left / self.millilitres, STEP)
            self.millilitres = left
        else:
            self._added(entry)
        self.mark()

    def _added(self, entry: Added) -> None:
        assert self.millilitres is not None
        if self.silver_grams is None:
            self.millilitres += entry.millilitres
            return
        poured = self.millilitres + entry.millilitres
        silver = self.silver_grams + entry.millilitres * entry.grams_per_litre / 1000
        self.millilitres = nearest(_with_salt(poured, silver, entry.salt_grams), STEP)
        self.silver_grams = nearest(silver + entry.salt_grams, STEP)


def _with_salt(millilitres: Fraction, silver_grams: Fraction, salt_grams: Fraction) -> Fraction:
    """mL of a bath after dry salt, by the density table at 20 °C; as it was where no table reaches."""
    if not salt_grams or not millilitres or silver_grams / millilitres * 1000 > STRONGEST:
        return millilitres
    grams = Bath(millilitres, Strength(silver_grams / millilitres * 1000)).grams + salt_grams
    share = (silver_grams + salt_grams) / grams * 100
    return grams / density(share) if share <= 30 else millilitres


def reckoned(
    entries: Iterable[Entry],
    *,
    millilitres: Fraction | None,
    silver_grams: Fraction | None,
    rates: CarryOff = USUAL,
) -> Book:
    """The book of a bath that was made with so much, after these entries in the order of time."""
    book = Book(millilitres, silver_grams, rates)
    book.mark()
    for entry in entries:
        book.enter(entry)
    return book
