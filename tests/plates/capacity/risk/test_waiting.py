"""Gate 3 asked as a question. The luck is the planning values of the design page (s.3, scenario files)."""

import pytest

from plates.capacity import Bench, Booked, Chances, Sitting
from plates.capacity.exact.replan import lay_out
from plates.capacity.risk.assess import risk
from plates.capacity.risk.waiting import refused_for_waiting, waits_too_often
from tests.plates.capacity.days import DAY, QUARTER

BENCH = Bench()
TENTH = Chances(chance_limit=0.10)


def promised(*starts):
    """Sittings of one plate at these minutes, as the exact planner lays them out."""
    sittings = [Sitting(start, (QUARTER,)) for start in starts]
    plans = lay_out(BENCH, DAY, sittings).plans
    return [Booked(*each) for each in zip(sittings, plans, strict=True)]


def too_often(*starts, chances=TENTH):
    booked = promised(*starts)
    return waits_too_often(BENCH, DAY, booked[:-1], booked, chances)


def test_a_sitter_alone_never_waits_too_often():
    assert too_often(0) is None


def test_sitters_far_apart_never_wait_too_often():
    assert too_often(0, 60, 120) is None


def test_of_sitters_close_together_the_one_who_waits_is_named():
    sitter = too_often(0, 15, 30, 45)

    assert sitter.start == 45
    assert sitter.upper >= 0.10


def test_without_a_limit_nobody_waits_too_often():
    assert too_often(0, 15, 30, 45, chances=Chances()) is None


def test_a_close_case_is_decided_by_the_whole_number_of_days():
    booked = promised(0, 15, 30, 45)
    whole = risk(BENCH, DAY, booked, Chances()).sitters[-1]
    just_over, just_under = (Chances(chance_limit=whole.upper + nudge) for nudge in (1e-9, -1e-9))

    assert waits_too_often(BENCH, DAY, booked[:-1], booked, just_under).start == 45
    others = [each.upper for each in risk(BENCH, DAY, booked, Chances()).sitters]
    assert (waits_too_often(BENCH, DAY, booked[:-1], booked, just_over) is None) == (
        max(others) == whole.upper
    )


def test_who_waited_too_often_before_is_not_counted_against_one_who_changes_nothing():
    crowded = promised(0, 15, 30, 45, 360)

    assert waits_too_often(BENCH, DAY, crowded[:-1], crowded, TENTH) is None


@pytest.mark.parametrize("starts", [(), (120, 240)])
def test_a_refusal_names_the_waiting_sitter_and_the_nearest_free_starts(starts):
    booked = promised(0, 15, 30, 45)

    refusal = refused_for_waiting(BENCH, DAY, booked[:-1], booked, TENTH, starts)

    assert (refusal.start, refusal.why, refusal.begin, refusal.end) == (45, "waiting", 45, 55)
    assert refusal.nearest == starts
