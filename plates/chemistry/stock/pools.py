"""How much of one solution is left for each day, when every day takes from the same bottles.

A bottle counts from the day it is ripe until the day it is past its best. Days are served in their order, each from
the bottle that is past its best soonest: no other order serves more (Glover's rule for matching in a convex graph,
1967, from memory; held against a maximum flow in the tests). Amounts are whole units of whatever the pool counts.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

from plates.chemistry.stock.spares import spares
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


class PoolLevel(NamedTuple):
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
        table = _Table(self, on)
        short = table.short()
        if table.short(most) <= short:
            return most
        fits, too_many = 0, most
        while too_many - fits > 1:
            middle = (fits + too_many) // 2
            if table.short(middle) <= short:
                fits = middle
            else:
                too_many = middle
        return fits

    def short(self) -> int:
        """Units that some day or other will be short of."""
        return _Table(self).short()

    def level(self, on: date) -> PoolLevel:
        """How the pool stands on a day once the days before it are served."""
        table = _Table(self, on)
        needs = table.needs(0)
        left = table.left_before()
        has = sum(left[place] for place in table.usable[table.at])
        return PoolLevel(has, needs[table.at])


class _Table:
    """A pool worked out for one day that is asked about: plain numbers, because they are gone through many times."""

    def __init__(self, pool: Pool, on: date | None = None) -> None:
        self.pool = pool
        units = {} if on is None else {on: 0}
        for need in pool.needs:
            units[need.on] = units.get(need.on, 0) + need.units
        self.days = sorted(units)
        self.units = [units[day] for day in self.days]
        self.at = -1 if on is None else self.days.index(on)
        bottles = sorted(pool.stock, key=lambda bottle: (bottle.best_before or date.max, bottle.ripe_from))
        self.left = [bottle.left for bottle in bottles]
        self.usable = [
            [place for place, bottle in enumerate(bottles) if bottle.counts(day)] for day in self.days
        ]

    def needs(self, extra: int) -> list[int]:
        """What each day needs with so much more promised for the day asked about, spoilt plates counted in."""
        pool, found, promised, before = self.pool, [], 0, 0
        for place, units in enumerate(self.units):
            units += extra if place == self.at else 0
            promised += units
            plates = -(-promised // pool.a_plate)
            spare = spares(plates, pool.spoilt_per_cent, pool.sure_per_cent) * pool.a_plate
            found.append(units + spare - before)
            before = spare
        return found

    def short(self, extra: int = 0) -> int:
        """Units that all days together go without."""
        needs = self.needs(extra)
        return sum(needs) - self._served(needs)[0]

    def left_before(self) -> list[int]:
        """What is left in each bottle once the days before the one asked about are served."""
        return self._served(self.needs(0)[: self.at])[1]

    def _served(self, needs: Sequence[int]) -> tuple[int, list[int]]:
        """Units that these days get, the first in turn, and what is left in each bottle."""
        left, served = list(self.left), 0
        for wanted, usable in zip(needs, self.usable, strict=False):
            for place in usable:
                taken = min(wanted, left[place])
                left[place] -= taken
                wanted -= taken
                served += taken
        return served, left
