"""Gate 0: what no plan could ever get round. A bound refuses only what is impossible, it never accepts."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from plates.capacity.problem.answers import budget_cause
from plates.capacity.problem.bench import Bench, Budget, Day, Sitting, Size, Timings


class Bound(NamedTuple):
    """A necessary rule that is broken, and the minutes that show it."""

    why: str
    begin: int
    end: int


def head(timings: Timings, operators: int) -> int:
    """The least minutes from settling to a plate's start of wash."""
    before = timings.pour + timings.sensitise.least + timings.load
    ready = timings.settle + before if operators == 1 else max(timings.settle, before)
    return ready + timings.expose + timings.develop + timings.fix


def attended(timings: Timings, plates: int) -> int:
    """Minutes of hands that a sitting takes while the sitter is in the house (its lifts left out)."""
    each = timings.pour + timings.load + timings.expose + timings.develop + timings.fix
    return timings.settle + plates * each + timings.farewell


def shortest(bench: Bench, plates: int) -> int:
    """The least minutes from settling to the end of the farewell."""
    by_hands = -(-attended(bench.timings, plates) // bench.operators)
    return max(head(bench.timings, bench.operators) + bench.timings.farewell, by_hands)


def impossible(
    bench: Bench, day: Day, others: Sequence[Sitting], asked: Sitting, budgets: Sequence[Budget]
) -> Bound | None:
    """The first bound that the asked sitting breaks on this day, or None."""
    return next(_broken(bench, day, others, asked, budgets), None)


def _broken(
    bench: Bench, day: Day, others: Sequence[Sitting], asked: Sitting, budgets: Sequence[Budget]
) -> Iterator[Bound]:
    start = asked.start
    if start < day.opens:
        yield Bound("opening", start, day.opens)
    if (start - day.opens) % day.start_every:
        yield Bound("grid", start, start)
    for size in asked.plates:
        if size.wash_places > bench.wash_places or not bench.tank_takes(size):
            yield Bound("size", start, start)
    if _washed_together(bench, asked.plates) > bench.wash_places:
        begin = start + head(bench.timings, bench.operators)
        yield Bound("wash", begin, begin + bench.timings.wash.least)
    yield from overspent(budgets, (*others, asked), start)
    gone = start + shortest(bench, len(asked.plates))
    if gone > day.closes:
        yield Bound("closing", day.closes, gone)
    times = bench.timings
    lifted = gone - times.farewell + times.wash.least + times.lift
    if lifted > day.racks_empty_by:
        yield Bound("racks", day.racks_empty_by, lifted)


def _washed_together(bench: Bench, plates: tuple[Size, ...]) -> int:
    """The most wash places that plates of one sitting must hold at once, for they follow each other so closely."""
    times = bench.timings
    apart = times.next_pour_within + times.pour + times.sensitise.most + times.wet_window + times.fix_within
    count = (times.wash.least - 1) // apart + 1
    return max(
        sum(size.wash_places for size in plates[first : first + count]) for first in range(len(plates))
    )


def overspent(budgets: Sequence[Budget], sittings: Sequence[Sitting], start: int) -> Iterator[Bound]:
    """The budgets that all these sittings together overspend."""
    plates: list[Size] = [size for sitting in sittings for size in sitting.plates]
    for budget in budgets:
        if sum(budget.units(size) for size in plates) > budget.left:
            yield Bound(budget_cause(budget.name), start, start)
