"""A whole day laid out from promises alone: each sitting in turn, looking ahead to those still to come."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from plates.capacity.gaps.bitset import stretch
from plates.capacity.gaps.choosing import plans
from plates.capacity.problem.bench import Bench, Budget, Day, Sitting
from plates.capacity.problem.case import Case
from plates.capacity.problem.timeline import Booked

MOST_NODES = 40
BRANCHES = 4


def packed(
    bench: Bench, day: Day, sittings: Sequence[Sitting], budgets: Sequence[Budget] = ()
) -> tuple[Booked, ...] | None:
    """Verified plans for all the sittings in their order, or None when the search gave up (which proves nothing).

    They may start at any minute, on the grid or off it. They are set in the order of their starts, at most
    BRANCHES ways each and MOST_NODES settings in all.
    """
    order = sorted(range(len(sittings)), key=lambda number: (sittings[number].start, number))
    empty = Case(bench, replace(day, start_every=1), (), tuple(budgets))
    found = _Search().fill(empty, [sittings[number] for number in order])
    if found is None:
        return None
    placed = dict(zip(order, found, strict=True))
    return tuple(placed[number] for number in range(len(sittings)))


class _Search:
    """A search that turns back where a later sitting is left without a start, for so many nodes."""

    def __init__(self) -> None:
        self.nodes = MOST_NODES

    def fill(self, case: Case, waiting: list[Sitting]) -> tuple[Booked, ...] | None:
        """The day with all that wait set into it."""
        if not waiting:
            return case.booked
        for after in self._ways(case, waiting):
            found = self.fill(after, waiting[1:])
            if found is not None or self.nodes <= 0:
                return found
        return None

    def _ways(self, case: Case, waiting: list[Sitting]) -> Iterator[Case]:
        if self.nodes <= 0:
            return
        self.nodes -= 1
        graded: list[tuple[tuple[int, int], int, int, Case]] = []
        for plan in plans(case, waiting[0]):
            after = case.with_booked(waiting[0], plan)
            rooms = [_starts(after, sitting) for sitting in waiting[1:]]
            if all(rooms):
                graded.append((_grade(rooms), waiting[0].start - plan.farewell, len(graded), after))
        graded.sort(key=lambda way: (way[0], way[1], -way[2]), reverse=True)
        yield from (after for *_, after in graded[:BRANCHES])


def _starts(case: Case, sitting: Sitting) -> int:
    """How many minutes the sitter could be settled at."""
    placing = case.placing(sitting.plates)
    first = sitting.start - case.day.opens
    return (
        placing.starts & stretch(first, first + case.bench.tolerance + 1, placing.room.length)
    ).bit_count()


def _grade(rooms: list[int]) -> tuple[int, int]:
    """The tightest of the sittings to come, then all of them."""
    return min(rooms, default=0), sum(rooms)
