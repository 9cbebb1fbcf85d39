"""May this sitting be promised? The gates in order; nothing passes that the verifier has not seen.

Gate 0 (bounds) refuses what is impossible, with its reason. Gate 1 (Case.insert) fits the sitting into the
stored plans by bitsets. Gates 2 and 3, the exact re-plan and the risk of waiting, stand in exact_admission.
"""

from collections.abc import Sequence

from plates.capacity.problem.answers import Admission, Openings, Refusal
from plates.capacity.problem.bench import Bench, Budget, Day, Sitting, Size
from plates.capacity.problem.case import Case
from plates.capacity.problem.timeline import Booked, SittingPlan
from plates.capacity.refusals.reasons import Refusing
from plates.capacity.verify.day import problems


def admit(
    bench: Bench, day: Day, booked: Sequence[Booked], asked: Sitting, budgets: Sequence[Budget] = ()
) -> Admission:
    """Plans for the whole day with the asked sitting last, or a refusal with its reason."""
    case = Case(bench, day, tuple(booked), tuple(budgets))
    plan = inserted(case, asked)
    if plan is not None:
        whole = (*case.booked, Booked(asked, plan))
        if not problems(bench, day, whole, budgets):
            return Admission(tuple(each.plan for each in whole), None)
    starts = _starts(case, asked.plates, None)
    return Admission((), Refusing(case, starts).refusal(asked))


def inserted(case: Case, asked: Sitting) -> SittingPlan | None:
    """The plan that gates 0 and 1 give the asked sitting on the day as it stands, or None.

    It is the first that fits: soonest and without a pause. Leaving more room for those who ask later was measured
    (tests/benchmarks/policies.py) and sells nothing more once gate 2 stands behind.
    """
    return case.insert(asked)


def openings(
    bench: Bench,
    day: Day,
    booked: Sequence[Booked],
    plates: tuple[Size, ...],
    budgets: Sequence[Budget] = (),
    not_before: int | None = None,
) -> Openings:
    """The grid starts, from `not_before` on, at which these plates can be promised; each one verified."""
    case = Case(bench, day, tuple(booked), tuple(budgets))
    starts = _starts(case, plates, not_before)

    def refused() -> tuple[Refusal, ...]:
        refusing = Refusing(case, starts)
        others = (start for start in _grid(case, not_before) if start not in set(starts))
        return tuple(refusing.refusal(Sitting(start, plates)) for start in others)

    return Openings(starts, refused)


def _grid(case: Case, not_before: int | None) -> list[int]:
    return [start for start in case.grid() if not_before is None or start >= not_before]


def _starts(case: Case, plates: tuple[Size, ...], not_before: int | None) -> tuple[int, ...]:
    return tuple(start for start in _grid(case, not_before) if case.insert(Sitting(start, plates)))
