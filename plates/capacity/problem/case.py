"""One day as it stands: bench, hours, booked sittings and budgets, with what is worked out from them once."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from plates.capacity.gaps import bounds
from plates.capacity.gaps.bitset import Room, room_of, stretch
from plates.capacity.gaps.placing import Placing
from plates.capacity.gaps.reading import Taste, lowest, read_plan
from plates.capacity.problem.bench import Bench, Budget, Day, Sitting, Size
from plates.capacity.problem.timeline import Booked, SittingPlan, occupations
from plates.capacity.verify.day import DayCheck

PLAIN = Taste()


@dataclass(frozen=True)
class Case:
    """A day on which one more sitting may be asked for."""

    bench: Bench
    day: Day
    booked: tuple[Booked, ...]
    budgets: tuple[Budget, ...] = ()

    @cached_property
    def check(self) -> DayCheck:
        return DayCheck(self.bench, self.day, self.booked, self.budgets)

    @cached_property
    def room(self) -> Room:
        return room_of(self.bench, self.day, self.booked)

    @cached_property
    def sittings(self) -> tuple[Sitting, ...]:
        return tuple(booked.sitting for booked in self.booked)

    @cached_property
    def _placings(self) -> dict[tuple[Size, ...], Placing]:
        return {}

    def placing(self, plates: tuple[Size, ...]) -> Placing:
        if plates not in self._placings:
            self._placings[plates] = Placing(self.bench, self.day, self.room, plates)
        return self._placings[plates]

    def bound(self, asked: Sitting) -> bounds.Bound | None:
        """Gate 0."""
        return bounds.impossible(self.bench, self.day, self.sittings, asked, self.budgets)

    def insert(self, asked: Sitting) -> SittingPlan | None:
        """Gate 1: a verified plan for the asked sitting while all others stay as they are, or None."""
        return next(self.inserts(asked, PLAIN), None)

    def inserts(self, asked: Sitting, taste: Taste) -> Iterator[SittingPlan]:
        """Verified plans of one taste, one for each minute the sitter can be settled at, earliest first."""
        if self.check.faults or self.bound(asked):
            return
        placing = self.placing(asked.plates)
        first = asked.start - self.day.opens
        settles = placing.starts & stretch(first, first + self.bench.tolerance + 1, placing.room.length)
        while settles:
            settle = lowest(settles)
            settles &= settles - 1
            plan = read_plan(placing, settle, taste)
            if plan and not self.check.adding(Booked(asked, plan)):
                yield plan

    def with_booked(self, asked: Sitting, plan: SittingPlan) -> "Case":
        """The same day with one more sitting in it."""
        more = Booked(asked, plan)
        fuller = Case(self.bench, self.day, (*self.booked, more), self.budgets)
        # The room of many sittings takes long to add up: it is this one's with one more in it.
        fuller.__dict__["room"] = self.room.plus(occupations(self.bench, more))
        return fuller

    def grid(self) -> range:
        """Every start that may be promised on this day."""
        return range(self.day.opens, self.day.closes, self.day.start_every)
