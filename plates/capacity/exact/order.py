"""Equal sittings kept in order, without loss: it spares the solver all the exchanges of one for another.

Sorting every step over equal plates keeps all lags (both sides) and leaves what is held at each minute unchanged
(the sorting lemma, reference: capacity research s.1). Promised windows are all of one width, so they sort too.
"""

from collections.abc import Iterator, Sequence

from plates.capacity.exact.day import Placed
from plates.capacity.exact.model import Board
from plates.capacity.problem.bench import Bench


def alike(placed: Sequence[Placed]) -> Iterator[list[Placed]]:
    """The groups of sittings with the same plates, each in the order of their windows."""
    groups: dict[tuple[int, ...], list[Placed]] = {}
    for each in sorted(placed, key=lambda one: (one.wanted.earliest, one.wanted.latest)):
        if not each.wanted.fixed:
            groups.setdefault(each.wanted.places, []).append(each)
    yield from groups.values()


def keep_order(board: Board, bench: Bench, placed: Sequence[Placed]) -> None:
    """Equal sittings one after the other; nothing that is possible becomes impossible by it.

    Where all plates of a sitting are alike every step is in order. Where they are not, two sittings could still be
    exchanged as wholes, which puts their settling in order.
    """
    for each in placed:
        if each.wanted.uniform:
            _take_turns_inside(board, bench, each)
    for group in alike(placed):
        for before, after in pairs(group, 1):
            steps = zip(before.minutes(), after.minutes(), strict=True)
            ordered = list(steps) if before.wanted.uniform else [(before.settle, after.settle)]
            for first, second in ordered:
                board.lag(first, second, 0)
        if group[0].wanted.uniform:
            _take_turns(board, bench, group)


def _take_turns(board: Board, bench: Bench, group: list[Placed]) -> None:
    """In such an order a place is free again for the one that comes as many later as there are places."""
    times = bench.timings
    for before, after in pairs(group, bench.sitters_at_once):
        board.lag(before.farewell, after.settle, times.farewell)
    for before, after in pairs(group, bench.tank_places):
        for first, second in zip(before.plates, after.plates, strict=True):
            board.lag(first.tank_out, second.pour, -times.pour)
    for before, after in pairs(group, _washed_at_once(bench, group[0])):
        for first, second in zip(before.plates, after.plates, strict=True):
            board.lag(first.lift, second.fix, -times.fix)


def _take_turns_inside(board: Board, bench: Bench, placed: Placed) -> None:
    """The same within one sitting, whose plates alike are in order too."""
    times, plates = bench.timings, placed.plates
    for before, after in zip(plates, plates[bench.tank_places :], strict=False):
        board.lag(before.tank_out, after.pour, -times.pour)
    for before, after in zip(plates, plates[_washed_at_once(bench, placed) :], strict=False):
        board.lag(before.lift, after.fix, -times.fix)


def _washed_at_once(bench: Bench, placed: Placed) -> int:
    return max(1, bench.wash_places // placed.wanted.places[0])


def pairs(group: list[Placed], apart: int) -> Iterator[tuple[Placed, Placed]]:
    """Every sitting of the group with the one that comes `apart` later."""
    yield from zip(group, group[apart:], strict=False)
