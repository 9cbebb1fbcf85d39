"""The independent verifier: a day's plans against every rule of design.md s.3, minute by minute.

It shares no constraint code with the planner on purpose. It reads the plans itself and counts on its own tally,
so that a fault in the planner's masks or in `occupations` cannot hide here too.
"""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from plates.capacity.problem.bench import Bench, Budget, Day
from plates.capacity.problem.timeline import Booked
from plates.capacity.verify.sitting import Fault, rest_faults, sitting_faults


def problems(
    bench: Bench, day: Day, booked: Sequence[Booked], budgets: Sequence[Budget] = ()
) -> tuple[str, ...]:
    """Every broken rule as one sentence naming sitting and plate (from 1), rule, minutes; empty = sound."""
    return tuple(fault.text for fault in DayCheck(bench, day, booked, budgets).faults)


class _Held(NamedTuple):
    resource: str
    begin: int
    end: int
    amount: int


class DayCheck:
    """A whole day checked once, against which one more sitting can then be checked without starting over."""

    def __init__(
        self, bench: Bench, day: Day, booked: Sequence[Booked], budgets: Sequence[Budget] = ()
    ) -> None:
        self.bench, self.day, self.booked, self.budgets = bench, day, tuple(booked), tuple(budgets)
        self._limits = {
            "operator": bench.operators,
            "tank": bench.tank_places,
            "wash": bench.wash_places,
            "sitters": bench.sitters_at_once,
        }
        minutes = max(day.closes, day.racks_empty_by) - day.opens
        self._tally = {resource: [0] * minutes for resource in self._limits}
        self.faults = tuple(self._whole_day())

    def adding(self, extra: Booked) -> tuple[Fault, ...]:
        """What would be broken by one more sitting on this day (the day's own faults come first)."""
        found = list(self.faults) + list(sitting_faults(self.bench, self.day, len(self.booked), extra))
        if self._inside(extra):
            self._count(extra, 1)
            for held in self._held(extra):
                found.extend(self._overloads(held.resource, held.begin, held.end, (*self.booked, extra)))
            self._count(extra, -1)
        if not any(fault.rule == "rest" for fault in self.faults):
            found.extend(rest_faults(self.bench, (*self.booked, extra)))
        return (*found, *self._overspent((*self.booked, extra)))

    def _whole_day(self) -> Iterator[Fault]:
        for number, booked in enumerate(self.booked):
            yield from sitting_faults(self.bench, self.day, number, booked)
            if self._inside(booked):
                self._count(booked, 1)
        last = max(self.day.closes, self.day.racks_empty_by)
        for resource in self._limits:
            yield from self._overloads(resource, self.day.opens, last, self.booked)
        yield from rest_faults(self.bench, self.booked)
        yield from self._overspent(self.booked)

    def _inside(self, booked: Booked) -> bool:
        """Plans that leave the day are reported by sitting_faults; the tally has no minutes for them."""
        last = max(self.day.closes, self.day.racks_empty_by)
        return all(self.day.opens <= held.begin and held.end <= last for held in self._held(booked))

    def _count(self, booked: Booked, sign: int) -> None:
        for held in self._held(booked):
            tally = self._tally[held.resource]
            for minute in range(held.begin - self.day.opens, held.end - self.day.opens):
                tally[minute] += sign * held.amount

    def _held(self, booked: Booked) -> Iterator[_Held]:
        times, plan = self.bench.timings, booked.plan
        yield _Held("sitters", plan.settle, plan.farewell + times.farewell, 1)
        yield _Held("operator", plan.settle, plan.settle + times.settle, 1)
        yield _Held("operator", plan.farewell, plan.farewell + times.farewell, 1)
        for size, plate in zip(booked.sitting.plates, plan.plates, strict=True):
            yield _Held("tank", plate.tank_in, plate.tank_out, 1)
            yield _Held("wash", plate.wash_in, plate.lift, size.wash_places)
            for begin, length in (
                (plate.pour, times.pour),
                (plate.tank_out, times.load),
                (plate.expose, times.expose),
                (plate.develop, times.develop),
                (plate.fix, times.fix),
                (plate.lift, times.lift),
            ):
                yield _Held("operator", begin, begin + length, 1)

    def _overloads(
        self, resource: str, begin: int, end: int, all_booked: tuple[Booked, ...]
    ) -> Iterator[Fault]:
        """One fault for each unbroken stretch of minutes in which more is held than the bench has."""
        tally, limit, opens = self._tally[resource], self._limits[resource], self.day.opens
        over = [minute for minute in range(begin, end) if tally[minute - opens] > limit]
        while over:
            length = next((n for n in range(1, len(over)) if over[n] != over[0] + n), len(over))
            stretch, over = over[:length], over[length:]
            yield self._overload(resource, stretch[0], stretch[-1] + 1, all_booked)

    def _overload(self, resource: str, begin: int, end: int, all_booked: tuple[Booked, ...]) -> Fault:
        most = max(self._tally[resource][begin - self.day.opens : end - self.day.opens])
        who = [
            str(number)
            for number, booked in enumerate(all_booked, 1)
            if any(h.resource == resource and h.begin < end and begin < h.end for h in self._held(booked))
        ]
        text = (
            f"Sittings {', '.join(who)}: {resource} needs {most} from minute {begin} to {end},"
            f" the bench has {self._limits[resource]}."
        )
        return Fault(resource, begin, end, text)

    def _overspent(self, all_booked: tuple[Booked, ...]) -> Iterator[Fault]:
        for budget in self.budgets:
            needed = sum(
                budget.use.get(size.name, 1) for booked in all_booked for size in booked.sitting.plates
            )
            if needed > budget.left:
                text = f"All sittings: {budget.name} needs {needed} units, {budget.left} are left."
                yield Fault(f"budget:{budget.name}", self.day.opens, self.day.closes, text)
