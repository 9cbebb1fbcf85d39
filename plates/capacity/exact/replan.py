"""Gate 2: the whole day planned anew, exactly. A refusal is a proof, an acceptance is verified, the rest unknown.

The promises are kept: every sitter is settled within the tolerance of the promised start, and a sitting that is
under way stays as it is. All else may move. Hand-written re-planning was measured and found only half of what is
possible (reference: capacity research s.5c), hence a solver.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

from plates.capacity.exact.day import Placed, Wanted, laid_out
from plates.capacity.exact.model import Board
from plates.capacity.exact.order import keep_order
from plates.capacity.gaps.bounds import overspent
from plates.capacity.problem.bench import Bench, Budget, Day, Sitting
from plates.capacity.problem.timeline import Booked, SittingPlan
from plates.capacity.verify.day import problems
from plates.capacity.verify.sitting import sitting_faults

SECONDS = 2.0
MOST_EXACT_PLATES = 600
WORK_A_PLATE = 0.001
# Of 26 questions on busy mixed days that took 0.1 seconds of work or more, two seconds decided all when 0.1 of
# them were searched in our order, and 23 when all were.
IN_ORDER = 0.1


@dataclass(frozen=True, slots=True)
class Exact:
    """Plans that the verifier has passed, in the order asked; or () and `impossible` or `unknown`.

    impossible: proven, no plan in whole minutes keeps the rules. unknown: not decided in the seconds given, which
    is to be treated as a refusal. work: what it took, in the solver's own seconds.
    """

    plans: tuple[SittingPlan, ...] = ()
    impossible: bool = False
    unknown: bool = False
    work: float = field(default=0.0, compare=False)


def replan(
    bench: Bench,
    day: Day,
    booked: Sequence[Booked],
    asked: Sitting,
    budgets: Sequence[Budget] = (),
    *,
    seconds: float = SECONDS,
) -> Exact:
    """Plans for the booked sittings in their order and the asked one last, all promises kept."""
    wanted = [
        Wanted(
            each.sitting.plates,
            each.sitting.start,
            each.sitting.start + bench.tolerance,
            each.plan,
            each.begun,
        )
        for each in booked
    ]
    sittings = [*(each.sitting for each in booked), asked]
    # What has begun cannot be mended: if it breaks a rule by itself, so does every plan of the day.
    if any(each.begun and any(sitting_faults(bench, day, 0, each)) for each in booked):
        return Exact(impossible=True)
    return _planned(bench, day, sittings, [*wanted, _promised(bench, asked)], budgets, seconds)


def lay_out(
    bench: Bench,
    day: Day,
    sittings: Sequence[Sitting],
    budgets: Sequence[Budget] = (),
    *,
    seconds: float = SECONDS,
) -> Exact:
    """Plans for all the sittings in their order, from their promised starts alone."""
    wanted = [_promised(bench, sitting) for sitting in sittings]
    return _planned(bench, day, sittings, wanted, budgets, seconds)


def solved(
    bench: Bench,
    day: Day,
    wanted: Sequence[Wanted],
    seconds: float,
    *,
    sitters_first: bool = False,
    in_order: float | None = IN_ORDER,
) -> Exact:
    """Plans for what is wanted as the solver gives them, not yet verified.

    in_order: the seconds in which the order of search is ours, None for all (Board.solve).

    sitters_first: settle the sitters in the order given, then end the baths, then all else, each as early as it
    goes. It finds a day filled to the last place sooner, and promised starts later, than the lowest minute first.
    """
    plates = sum(len(each.plates) for each in wanted)
    if plates > MOST_EXACT_PLATES:
        return Exact(unknown=True)
    board = Board()
    placed: list[Placed] = laid_out(board, bench, day, wanted)
    keep_order(board, bench, placed)
    if sitters_first:
        board.search_first([each.settle for each in placed], in_turn=True)
        board.search_first([plate.tank_out for each in placed for plate in each.plates])
    outcome = board.solve(seconds, in_order=in_order)
    work = board.work + WORK_A_PLATE * plates
    if outcome == "found":
        return Exact(tuple(each.plan() for each in placed), work=work)
    return Exact(impossible=outcome == "impossible", unknown=outcome == "unknown", work=work)


def _promised(bench: Bench, sitting: Sitting) -> Wanted:
    return Wanted(sitting.plates, sitting.start, sitting.start + bench.tolerance)


def _planned(
    bench: Bench,
    day: Day,
    sittings: Sequence[Sitting],
    wanted: Sequence[Wanted],
    budgets: Sequence[Budget],
    seconds: float,
) -> Exact:
    if any(overspent(budgets, sittings, day.opens)):
        return Exact(impossible=True)
    found = solved(bench, day, wanted, seconds)
    booked = [Booked(*each) for each in zip(sittings, found.plans, strict=False)]
    if problems(bench, day, booked, budgets):
        # The verifier has the last word; a plan it does not pass is as good as none.
        return Exact(unknown=True, work=found.work)
    return found
