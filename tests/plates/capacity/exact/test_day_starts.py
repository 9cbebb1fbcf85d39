"""Every start of a day decided beforehand, as a sale would decide it."""

import pytest

from plates.capacity import Bench, Chances, Sitting, admit
from plates.capacity.exact.day_starts import day_starts
from plates.capacity.exact.replan import replan
from plates.capacity.problem.case import Case
from tests.plates.capacity.days import DAY, QUARTER, random_day

BENCH = Bench(sitters_at_once=2)
ENOUGH = {"seconds": 5.0, "in_all": 100.0}


def a_case(seed=3):
    return Case(BENCH, DAY, tuple(random_day(seed, BENCH, requests=14, counts=(1,), sizes=(QUARTER,))))


@pytest.mark.parametrize("seed", [3, 4])
def test_open_is_what_gaps_or_a_new_plan_hold_and_full_is_proven(seed):
    case = a_case(seed)

    found = day_starts(case, (QUARTER,), Chances(), **ENOUGH)

    assert list(found.verdicts) == list(case.grid())
    for start, verdict in found.verdicts.items():
        asked = Sitting(start, (QUARTER,))
        gaps = admit(BENCH, DAY, case.booked, asked).plans
        exact = replan(BENCH, DAY, case.booked, asked)
        assert verdict == ("open" if gaps or exact.plans else "full")
    assert found.of("open")
    assert found.of("full")


def test_with_a_limit_on_waiting_fewer_are_open_and_the_others_say_why():
    case = a_case()
    free = day_starts(case, (QUARTER,), Chances(), **ENOUGH)

    limited = day_starts(case, (QUARTER,), Chances(chance_limit=0.1), **ENOUGH)

    assert set(limited.of("open")) < set(free.of("open"))
    assert set(limited.of("open")) | set(limited.of("waiting")) == set(free.of("open"))


def test_what_no_work_is_left_for_stays_undecided():
    case = a_case()

    found = day_starts(case, (QUARTER,), Chances(), seconds=1.0, in_all=0.0)

    assert found.of("undecided")
    assert set(found.of("open")) == {
        start for start in case.grid() if admit(BENCH, DAY, case.booked, Sitting(start, (QUARTER,))).plans
    }
