"""A late day at a glance: when each sitter can be expected, and what cannot be kept. Loads the solver where it must."""

from collections.abc import Sequence
from dataclasses import replace

from plates.capacity.late.begun import Begun, begun_work
from plates.capacity.late.forward import played_forward
from plates.capacity.late.progress import Expected, LateDay, Means, Moment, Work, order_changes
from plates.capacity.late.verify import faults
from plates.capacity.problem.bench import Bench, Day

SECONDS_A_GOAL = 0.25


def late_day(
    bench: Bench, day: Day, works: Sequence[Work], now: int, *, seconds: float = SECONDS_A_GOAL
) -> LateDay:
    """Plan what is left of a day at minute `now`.

    The stored plan is played forward; where that keeps every promise it stands. Where not, a search looks for less
    worst lateness, then less in all, then less overtime, then fewer changes of the promised order, each goal for
    `seconds` of the solver's own work. Undecided where not even the plates under way could be planned.
    """
    at = Moment.of(bench, day, works, now)
    begun = begun_work(bench, day, works, at)
    forward = _answer(played_forward(bench, day, works, begun.sittings, at), begun, "played forward")
    if not forward.worst and not forward.over:
        return forward
    from plates.capacity.late.replan import searched

    found, proven = searched(bench, day, works, begun, at, forward, seconds)
    if found is None:
        return forward
    answer = _answer(found, begun, "searched", proven=proven)
    if faults(bench, day, works, answer, now) or grade(works, forward) <= grade(works, answer):
        # The judge has the last word; a search cut short may end worse than doing nothing, and what is planned
        # already is kept where nothing is better.
        return replace(forward, proven=proven and grade(works, forward) == grade(works, answer))
    return answer


def grade(works: Sequence[Work], late: LateDay) -> tuple[int, int, int, int]:
    """What is to be least: worst lateness, lateness in all, overtime, changes of the promised order."""
    return late.worst, late.total, late.over, order_changes(works, late.sittings)


def _answer(
    sittings: Sequence[Expected], begun: Begun, means: Means, *, proven: bool | None = None
) -> LateDay:
    nothing_late = all(each.kept for each in sittings)
    return LateDay(tuple(sittings), begun.lost, means, nothing_late if proven is None else proven)
