"""Gate 0: what no plan could ever get round. A bound refuses only what is impossible, it never accepts."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from plates.capacity.bench import Bench, Budget, Day, Sitting, Size, Timings


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
    yield from overspent(budgets, (*others, asked), start)
    gone = start + shortest(bench, len(asked.plates))
    if gone > day.closes:
        yield Bound("closing", day.closes, gone)
    times = bench.timings
    lifted = gone - times.farewell + times.wash.least + times.lift
    if lifted > day.racks_empty_by:
        yield Bound("racks", day.racks_empty_by, lifted)


def overspent(budgets: Sequence[Budget], sittings: Sequence[Sitting], start: int) -> Iterator[Bound]:
    """The budgets that all these sittings together overspend."""
    plates: list[Size] = [size for sitting in sittings for size in sitting.plates]
    for budget in budgets:
        if sum(budget.units(size) for size in plates) > budget.left:
            yield Bound(f"budget:{budget.name}", start, start)
