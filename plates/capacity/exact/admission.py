"""Gates 2 and 3 at the moment of sale: may a sitting that gate 1 found no gap for be promised after all?

Loads the solver and numpy; import it only where gate 1 has refused.
"""

from collections.abc import Sequence

from plates.capacity.exact.openings import Gate
from plates.capacity.exact.replan import SECONDS, replan
from plates.capacity.problem.answers import Admission, Refusal, nearest
from plates.capacity.problem.bench import Bench, Budget, Day, Sitting
from plates.capacity.problem.case import Case
from plates.capacity.problem.timeline import Booked, planned
from plates.capacity.refusals.reasons import Refusing
from plates.capacity.risk.reasons import waiting_refusal
from plates.capacity.risk.values import Chances

SECONDS_A_REASON = 0.25
SECONDS_OF_REASONS = 1.0
UNDECIDED = "undecided"


def admit_exactly(
    bench: Bench,
    day: Day,
    booked: Sequence[Booked],
    asked: Sitting,
    budgets: Sequence[Budget] = (),
    *,
    chances: Chances | None = None,
    starts: Sequence[int] = (),
    seconds: float = SECONDS,
) -> Admission:
    """Verified plans for the whole day with the asked sitting last, or a refusal whose remedy was tried exactly.

    A day whose stored plans no longer hold together is mended where it can be. `starts` are the starts known to be
    free, of which a refusal names the nearest. What could not be decided in `seconds` of the solver's work is
    refused as "undecided". With a limit in `chances` the plans are also refused where somebody would wait too often.
    """
    case = Case(bench, day, tuple(booked), tuple(budgets))
    if case.bound(asked) is None:
        found = replan(bench, day, case.booked, asked, case.budgets, seconds=seconds)
        if found.plans:
            after = planned(case.booked, found.plans, asked)
            return _unless_waiting(case, after, chances or Chances(), starts)
        if found.unknown:
            free = nearest(asked.start, tuple(starts))
            return Admission((), Refusal(asked.start, UNDECIDED, asked.start, asked.start, None, free))
    reasons = Gate(SECONDS_A_REASON, SECONDS_OF_REASONS)
    refusing = Refusing(case, starts, lambda changed, wish: bool(reasons.opens(changed, wish)))
    return Admission((), refusing.refusal(asked))


def _unless_waiting(
    case: Case, after: Sequence[Booked], chances: Chances, starts: Sequence[int]
) -> Admission:
    refusal = waiting_refusal(case, after, chances, starts)
    return Admission((), refusal) if refusal else Admission(tuple(each.plan for each in after), None)
