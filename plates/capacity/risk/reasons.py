"""Why a start is refused although the bench could make its plates: who would wait, and would more hands help?

Loads numpy; import it only where risk is asked for.
"""

from collections.abc import Sequence
from dataclasses import replace

from plates.capacity.problem.answers import Refusal
from plates.capacity.problem.case import Case
from plates.capacity.problem.timeline import Booked
from plates.capacity.problem.values import CapacityValueError
from plates.capacity.refusals.reasons import CHANGES
from plates.capacity.risk.values import Chances
from plates.capacity.risk.waiting import refused_for_waiting, waits_too_often

HELP = "operators+1"


def waiting_refusal(
    case: Case, after: Sequence[Booked], chances: Chances, starts: Sequence[int]
) -> Refusal | None:
    """The refusal of the last of `after`, the day planned with it, or None where nobody would wait too often.

    lifted_by is tried by playing the same plans with one more pair of hands: a sound plan stays sound with more.
    """
    refusal = refused_for_waiting(case.bench, case.day, case.booked, after, chances, starts)
    if refusal is None or not _helped(case, after, chances):
        return refusal
    return replace(refusal, lifted_by=HELP)


def _helped(case: Case, after: Sequence[Booked], chances: Chances) -> bool:
    try:
        bench, day = CHANGES[HELP][1](case.bench, case.day)
    except CapacityValueError:
        # There is no bench with more than the most hands that may be set.
        return False
    return waits_too_often(bench, day, case.booked, after, chances) is None
