"""Why a start is refused: which resource binds, in which minutes, and which single change would lift it."""

from collections.abc import Callable, Sequence
from dataclasses import replace

from plates.capacity.gaps.bitset import runs, stretch
from plates.capacity.gaps.bounds import head, shortest
from plates.capacity.gaps.reading import lowest
from plates.capacity.problem.answers import BUDGET, Refusal, nearest, split_cause
from plates.capacity.problem.bench import (
    MOST_HANDS,
    MOST_SITTERS,
    MOST_TANK_PLACES,
    MOST_WASH_PLACES,
    Bench,
    Day,
    Sitting,
)
from plates.capacity.problem.case import Case
from plates.capacity.problem.values import CapacityValueError

Change = Callable[[Bench, Day], tuple[Bench, Day]]
Judge = Callable[[Case, Sitting], bool]

CHANGES: dict[str, tuple[str | None, Change]] = {
    "operators+1": ("operator", lambda bench, day: (replace(bench, operators=bench.operators + 1), day)),
    "tank_places+1": ("tank", lambda bench, day: (replace(bench, tank_places=bench.tank_places + 1), day)),
    "wash_places+1": ("wash", lambda bench, day: (replace(bench, wash_places=bench.wash_places + 1), day)),
    "tolerance+5": (None, lambda bench, day: (replace(bench, tolerance=bench.tolerance + 5), day)),
    "closes+15": ("closing", lambda bench, day: (bench, replace(day, closes=day.closes + 15))),
    "sitters_at_once+1": (
        "sitters",
        lambda bench, day: (replace(bench, sitters_at_once=bench.sitters_at_once + 1), day),
    ),
}
WITHOUT_LIMIT: dict[str, Change] = {
    "operator": lambda bench, day: (replace(bench, operators=MOST_HANDS), day),
    "tank": lambda bench, day: (replace(bench, tank_places=MOST_TANK_PLACES), day),
    "wash": lambda bench, day: (replace(bench, wash_places=MOST_WASH_PLACES), day),
    "sitters": lambda bench, day: (replace(bench, sitters_at_once=MOST_SITTERS), day),
    "rest": lambda bench, day: (_without_rest(bench), day),
}
NO_CHANGE_HELPS = ("grid", "opening")


def _without_rest(bench: Bench) -> Bench:
    if bench.rest is None:
        raise CapacityValueError("rest", "is not asked for")
    return replace(bench, rest=None)


def by_insertion(case: Case, asked: Sitting) -> bool:
    """Whether gate 1 admits the sitting."""
    return case.insert(asked) is not None


class Refusing:
    """The refusals of one order of plates on one day; each changed day is worked out once for all starts.

    `admits` says whether a changed day would take the sitting.
    """

    def __init__(self, case: Case, starts: Sequence[int], admits: Judge = by_insertion) -> None:
        self.case, self.starts, self.admits = case, tuple(starts), admits
        self._changed: dict[Change, Case | None] = {}

    def refusal(self, asked: Sitting) -> Refusal:
        """Why the asked sitting, which has been refused, cannot be promised."""
        lifted_by, resource = self._lifted_by(asked)
        bound, faults = self.case.bound(asked), self.case.check.faults
        if bound:
            why, begin, end = bound
        elif faults:
            # The stored day no longer holds (the bench was changed); that must be mended before anything is added.
            why, begin, end, _ = faults[0]
        else:
            why = resource or self._binding(asked)
            begin, end = self._minutes(asked, why)
        return Refusal(asked.start, why, begin, end, lifted_by, nearest(asked.start, self.starts))

    def _lifted_by(self, asked: Sitting) -> tuple[str | None, str | None]:
        bound = self.case.bound(asked)
        why, name = split_cause(bound.why) if bound else ("", "")
        if why == BUDGET:
            return self._more_of(name, asked), None
        if why in NO_CHANGE_HELPS:
            return None, None
        # What binds is relaxed first, so that the reason and its remedy speak of the same thing.
        for name, (resource, change) in sorted(CHANGES.items(), key=lambda each: each[1][0] != why):
            if self._admits(change, asked):
                return name, resource
        return None, None

    def _more_of(self, name: str, asked: Sitting) -> str | None:
        """The name of the budget and the units it lacks, if the day would take the sitting with so many more."""
        case = self.case
        plates = [size for sitting in (*case.sittings, asked) for size in sitting.plates]
        lacks = {each.name: sum(map(each.units, plates)) - each.left for each in case.budgets}
        enough = tuple(
            replace(each, left=each.left + lacks[name]) if each.name == name else each
            for each in case.budgets
        )
        more = Case(case.bench, case.day, case.booked, enough)
        return f"{name}+{lacks[name]}" if self.admits(more, asked) else None

    def _admits(self, change: Change, asked: Sitting) -> bool:
        if change not in self._changed:
            self._changed[change] = self._case(change)
        case = self._changed[change]
        return case is not None and self.admits(case, asked)

    def _case(self, change: Change) -> Case | None:
        try:
            bench, day = change(self.case.bench, self.case.day)
        except CapacityValueError:
            # No bench or day has more than the most that may be set, or needs less than no rest.
            return None
        return Case(bench, day, self.case.booked, self.case.budgets)

    def _binding(self, asked: Sitting) -> str:
        """The resource without whose limit the sitting would fit; hands when there is no single one."""
        found = (resource for resource, change in WITHOUT_LIMIT.items() if self._admits(change, asked))
        return next(found, "operator")

    def _minutes(self, asked: Sitting, why: str) -> tuple[int, int]:
        """The longest stretch in which the resource is taken, of the minutes the sitting would need it."""
        case, bench, day = self.case, self.case.bench, self.case.day
        first = asked.start - day.opens
        last = first + bench.tolerance + shortest(bench, len(asked.plates))
        if why == "closing":
            return day.closes, day.opens + last
        if why == "rest":
            return asked.start, day.opens + last
        if why == "wash":
            first += head(bench.timings, bench.operators)
            last += bench.timings.wash.least
        taken = self._taken(why, asked) & stretch(first, last, case.room.length)
        begin, end = longest(_joined(taken, max(1, bench.timings.settle) if why == "operator" else 1))
        return (day.opens + begin, day.opens + end) if begin < end else (asked.start, day.opens + last)

    def _taken(self, why: str, asked: Sitting) -> int:
        bench, room = self.case.bench, self.case.room
        places = max(size.wash_places for size in asked.plates)
        free = {
            "operator": room.free(room.operator, bench.operators - 1),
            "tank": room.free(room.tank, bench.tank_places - 1),
            "wash": room.free(room.wash, bench.wash_places - places),
            "sitters": room.free(room.sitter, bench.sitters_at_once - 1),
        }
        return stretch(0, room.length, room.length) & ~free[why]


def _joined(taken: int, gap: int) -> int:
    """The minutes taken, with gaps shorter than `gap` minutes closed: no sitter can be settled in them."""
    end = taken.bit_length()
    free = stretch(0, end, end) & ~taken
    useful = runs(free, gap)
    kept = 0
    for minute in range(gap):
        kept |= useful << minute
    return stretch(lowest(taken), end, end) & ~(kept & free) if taken else 0


def longest(taken: int) -> tuple[int, int]:
    """The longest unbroken stretch (the first of equals) as begin and end; (0, 0) for no minutes."""
    best = (0, 0)
    while taken:
        begin = lowest(taken)
        end = begin + lowest(~(taken >> begin))
        if end - begin > best[1] - best[0]:
            best = (begin, end)
        taken &= ~((1 << end) - 1)
    return best
