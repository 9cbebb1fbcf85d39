"""How much of one solution is left for each day, when every day takes from the same bottles.

A bottle counts from the day it is ripe until the day it is past its best. Days are served in their order, each from
the bottle that is past its best soonest: no other order serves more (Glover's rule for matching in a convex graph,
1967, from memory; held against a maximum flow in the tests). Amounts are whole units of whatever the pool counts.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import NamedTuple

from plates.chemistry.spares import spares
from plates.chemistry.values import ChemistryValueError, exact


@dataclass(frozen=True, slots=True)
class OnHand:
    """What is left in one bottle; it counts from `ripe_from` until the day before `best_before` (None: without end)."""

    left: int
    ripe_from: date
    best_before: date | None = None

    def __post_init__(self) -> None:
        exact("What is left", self.left, least=0)
        if self.best_before is not None and self.best_before < self.ripe_from:
            raise ChemistryValueError("A bottle cannot be past its best before it is ripe.")

    def counts(self, on: date) -> bool:
        return self.ripe_from <= on and (self.best_before is None or on < self.best_before)


@dataclass(frozen=True, slots=True)
class Need:
    """What the plates promised for one day take, each made once."""

    on: date
    units: int

    def __post_init__(self) -> None:
        exact("What a day needs", self.units, least=0)


class Standing(NamedTuple):
    """What a day can have and what it needs, in units; spoilt plates are counted in what it needs."""

    has: int
    needs: int


@dataclass(frozen=True, slots=True)
class Pool:
    """The bottles of one solution and the days that take from it.

    `a_plate` is what a usual plate takes: spoilt plates are counted in such plates, and so many are reckoned with
    that they are enough in `sure_per_cent` of all cases, over all days up to each day together.
    """

    stock: tuple[OnHand, ...]
    needs: tuple[Need, ...]
    a_plate: int
    spoilt_per_cent: int = 0
    sure_per_cent: int = 90

    def __post_init__(self) -> None:
        exact("What a plate takes", self.a_plate, least=1)

    def room(self, on: date, most: int) -> int:
        """Units that may still be promised for that day, up to `most`, without any day being shorter for it."""
        short = self.short()
        if self._with(on, most).short() <= short:
            return most
        fits, too_many = 0, most
        while too_many - fits > 1:
            middle = (fits + too_many) // 2
            if self._with(on, middle).short() <= short:
                fits = middle
            else:
                too_many = middle
        return fits

    def short(self) -> int:
        """Units that some day or other will be short of."""
        return sum(_served(self.stock, self.with_spares()).short.values())

    def with_spares(self) -> tuple[Need, ...]:
        """What each day needs, spoilt plates counted in, earliest first and one for each day."""
        days: dict[date, int] = {}
        for need in self.needs:
            days[need.on] = days.get(need.on, 0) + need.units
        found, promised, before = [], 0, 0
        for on in sorted(days):
            promised += days[on]
            plates = -(-promised // self.a_plate)
            spare = spares(plates, self.spoilt_per_cent, self.sure_per_cent) * self.a_plate
            found.append(Need(on, days[on] + spare - before))
            before = spare
        return tuple(found)

    def standing(self, on: date) -> Standing:
        """How the pool stands on a day once the days before it are served."""
        known = self.with_spares()
        after = _served(self.stock, tuple(need for need in known if need.on < on))
        has = sum(left for bottle, left in zip(after.bottles, after.left, strict=True) if bottle.counts(on))
        return Standing(has, sum(need.units for need in known if need.on == on))

    def _with(self, on: date, units: int) -> "Pool":
        return replace(self, needs=(*self.needs, Need(on, units)))


class _Served(NamedTuple):
    """The bottles in the order they are used up, what is left in each, and what each day goes without."""

    bottles: list[OnHand]
    left: list[int]
    short: dict[date, int]


def _served(stock: Sequence[OnHand], needs: Sequence[Need]) -> _Served:
    bottles = sorted(stock, key=lambda bottle: (bottle.best_before or date.max, bottle.ripe_from))
    left = [bottle.left for bottle in bottles]
    short: dict[date, int] = {}
    for need in sorted(needs, key=lambda need: need.on):
        wanted = need.units
        for place, bottle in enumerate(bottles):
            if wanted and bottle.counts(need.on):
                taken = min(wanted, left[place])
                left[place] -= taken
                wanted -= taken
        short[need.on] = short.get(need.on, 0) + wanted
    return _Served(bottles, left, short)
