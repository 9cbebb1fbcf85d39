"""The rest of a late day planned anew: least worst lateness, then least total, then overtime, then changed order.

Work that has begun keeps the allowance it was found to need and may otherwise move; who has not begun is settled at
the promised start or later. Loads the solver.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from plates.capacity.exact.day import Placed, Wanted
from plates.capacity.exact.model import Board, Minute
from plates.capacity.late.begun import Begun, expectation, in_turn, limits, tails_of
from plates.capacity.late.progress import Expected, LateDay, Moment, Work, expected, promised_order
from plates.capacity.late.remaining import Allowance, Tail
from plates.capacity.problem.bench import Bench, Day


def searched(
    bench: Bench,
    day: Day,
    works: Sequence[Work],
    begun: Begun,
    at: Moment,
    forward: LateDay,
    seconds: float,
) -> tuple[tuple[Expected, ...] | None, bool]:
    """One expectation for each work, and whether it is proven to be the best; None where nothing was found."""
    board = Board()
    long_day = replace(day, closes=at.last, racks_empty_by=at.last)
    tails = tails_of(Allowance(board, at.last - day.opens, given=begun.excess), bench, day, works, at)
    placed = {
        place: _placed(board, bench, long_day, work, at) for place, work in enumerate(works) if not work.begun
    }
    limits(board, bench, list(tails.values()))
    _keep_order(board, works, placed)

    def read() -> tuple[Expected, ...]:
        return tuple(
            expected(bench, day, works[place], placed[place].plan())
            if place in placed
            else expectation(bench, day, tails[place])
            for place in range(len(works))
        )

    late = [_late(board, bench, day, works[place], placed[place], at) for place in placed]
    worst = board.amount(0, forward.worst)
    for each in late:
        board.lag(each, worst, 0)
    goals = [[worst], late, [_over(board, day, placed, tails, at)], _changes(board, works, placed, at)]
    return in_turn(board, goals, read, seconds)


def _placed(board: Board, bench: Bench, long_day: Day, work: Work, at: Moment) -> Placed:
    sitting = work.booked.sitting
    earliest = max(sitting.start, at.settled_from(work.booked.plan, bench.timings.settle))
    latest = at.last - bench.timings.settle
    placed = Placed(board, bench, long_day, Wanted(sitting.plates, earliest, latest))
    board.lag(at.now - long_day.opens, placed.plates[0].pour, 0)
    placed.hold()
    return placed


def _late(board: Board, bench: Bench, day: Day, work: Work, placed: Placed, at: Moment) -> Minute:
    """Minutes beyond the promised window."""
    late = board.amount(0, at.last - day.opens)
    board.lag(placed.settle, late, -(work.booked.sitting.start + bench.tolerance - day.opens))
    return late


def _over(board: Board, day: Day, placed: dict[int, Placed], tails: dict[int, Tail], at: Moment) -> Minute:
    """Minutes beyond closing or the emptying of the racks, whichever is more."""
    over = board.amount(0, at.last - day.opens)
    for each in placed.values():
        board.lag(each.farewell, over, each.times.farewell - (day.closes - day.opens))
        for plate in each.plates:
            board.lag(plate.lift, over, each.times.lift - (day.racks_empty_by - day.opens))
    for tail in tails.values():
        board.lag(tail.gone, over, -(day.closes - day.opens))
        for _, _, end, _, what, _ in tail.held:
            if what == "lift":
                board.lag(end, over, -(day.racks_empty_by - day.opens))
    return over


def _changes(board: Board, works: Sequence[Work], placed: dict[int, Placed], at: Moment) -> list[Minute]:
    """1 for each pair of neighbours in the promised order that is settled the other way round."""
    changes = []
    for first, second in pairwise(promised_order(works)):
        changes.append(board.amount(0, 1))
        reach = at.last
        board.lag(placed[first].settle - reach * changes[-1], placed[second].settle, 0)
    return changes


def _keep_order(board: Board, works: Sequence[Work], placed: dict[int, Placed]) -> None:
    """Sittings with the same plates stay in the order of their promises: exchanging two makes nobody less late.

    Lateness grows with the start, and whoever is promised earlier may begin earlier (the sorting lemma, reference:
    capacity research s.1; that sums of such lateness are least when sorted is the rearrangement inequality).
    """
    groups: dict[tuple[int, ...], list[Placed]] = {}
    for place in promised_order(works):
        groups.setdefault(placed[place].wanted.places, []).append(placed[place])
    for group in groups.values():
        for before, after in pairwise(group):
            if before.wanted.earliest <= after.wanted.earliest:
                _in_order(board, before, after)


def _in_order(board: Board, before: Placed, after: Placed) -> None:
    steps = list(zip(before.minutes(), after.minutes(), strict=True))
    for first, second in steps if before.wanted.uniform else steps[:1]:
        board.lag(first, second, 0)
