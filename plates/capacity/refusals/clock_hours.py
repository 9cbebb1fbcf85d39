"""How full each hour of the day is, and what keeps it from holding more."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from plates.capacity.problem.bench import Bench, Day, Sitting, Size
from plates.capacity.problem.case import Case
from plates.capacity.problem.timeline import Booked
from plates.capacity.refusals.reasons import Refusing


@dataclass(frozen=True, slots=True)
class Hour:
    """One hour from the opening on: plates poured in it, the most there could be, and what binds."""

    begin: int
    end: int
    plates_booked: int
    plates_limit: int
    bound_by: str | None


def hours(bench: Bench, day: Day, booked: Sequence[Booked], size: Size) -> tuple[Hour, ...]:
    """For each hour: how many one-plate sittings of `size` could still start in it, each verified.

    They may start at any minute. Each hour is filled by itself, with the rest of the day as booked.
    """
    case = Case(bench, replace(day, start_every=1), tuple(booked))
    return tuple(_hour(case, begin, size) for begin in range(day.opens, day.closes, 60))


def _hour(case: Case, begin: int, size: Size) -> Hour:
    end = min(begin + 60, case.day.closes)
    poured = sum(begin <= plate.pour < end for booked in case.booked for plate in booked.plan.plates)
    full = filled(case, begin, end, size)
    more = len(full.booked) - len(case.booked)
    bound_by = Refusing(full, ()).refusal(Sitting(begin, (size,))).why
    return Hour(begin, end, poured, poured + more, bound_by)


def filled(case: Case, begin: int, end: int, size: Size) -> Case:
    """The day with one-plate sittings added from `begin` on until no more can start before `end`."""
    start = begin
    while start < end:
        asked = Sitting(start, (size,))
        plan = case.insert(asked)
        if plan:
            case = case.with_booked(asked, plan)
        else:
            start += 1  # what does not fit now fits no better when the day is fuller
    return case
