"""The reason, the minutes and the remedy of a refusal on days so small that they are worked out by hand.

The plans of `lone` hold, counted from their start: the hands 0-6 and 9-18, the tank 6-9, the sitter 0-18, the wash
16-76 (design page s.3, the table of operations). Every case is asked on an axis from 0 and on one from 600.
"""

from dataclasses import replace

import pytest

from plates.capacity import Bench, Booked, Day, PlatePlan, Sitting, SittingPlan, Timings
from plates.capacity.problem.case import Case
from plates.capacity.refusals.reasons import Refusing
from tests.plates.capacity.days import QUARTER, WHOLE

STRICT = Bench(operators=8, tank_places=8, wash_places=30, sitters_at_once=9, tolerance=0)
AT_ONCE = replace(Timings(), first_pour_within=4)
AXES = (0, 600)


def lone(start):
    plate = PlatePlan(
        start + 4, start + 6, start + 9, start + 10, start + 12, start + 14, start + 16, start + 76
    )
    return Booked(Sitting(start, (QUARTER,)), SittingPlan(start, start + 16, (plate,)))


def refused(opens, bench, starts, asked, plates=(QUARTER,), closes=480, admits=None, budgets=()):
    """The refusal of an asked start, everything counted from the opening."""
    day = Day(opens, opens + closes, opens + closes + 75)
    case = Case(bench, day, tuple(lone(opens + start) for start in starts), budgets)
    refusing = Refusing(case, (), admits) if admits else Refusing(case, ())
    refusal = refusing.refusal(Sitting(opens + asked, plates))
    return refusal.why, refusal.begin - opens, refusal.end - opens, refusal.lifted_by


CASES = {
    # The gap of 3 minutes at 36 is too short to settle a sitter in; what is asked for would be over at 48.
    "hands": (replace(STRICT, operators=1), (30,), 30, ("operator", 30, 48, "operators+1")),
    "hands of two": (replace(STRICT, operators=2), (30, 30), 30, ("operator", 30, 44, "operators+1")),
    # Two baths, 32-35 and 36-39, and the asked one would have to begin from 32 to 36.
    "tank": (
        replace(STRICT, tank_places=1, timings=AT_ONCE), (26, 30), 30, ("tank", 32, 35, "tank_places+1"),
    ),
    "tank of two": (
        replace(STRICT, tank_places=2, timings=AT_ONCE), (26, 26, 30, 30), 30, ("tank", 32, 35, "tank_places+1"),
    ),
    # Asked for at 45, a plate is washed from 57 at the soonest; the place is held from 46 to 106.
    "wash": (replace(STRICT, wash_places=1, tolerance=5), (30,), 45, ("wash", 57, 106, "wash_places+1")),
    "wash of two": (
        replace(STRICT, wash_places=2, tolerance=5), (30, 30), 45, ("wash", 57, 106, "wash_places+1"),
    ),
    # With more hands than one, a sitting of one plate is 14 minutes.
    "sitters": (replace(STRICT, sitters_at_once=1), (30,), 30, ("sitters", 30, 44, "sitters_at_once+1")),
    "sitters of two": (
        replace(STRICT, sitters_at_once=2), (30, 30), 30, ("sitters", 30, 44, "sitters_at_once+1"),
    ),
    # The sitter before leaves at 48, three minutes after the promised start.
    "sitters, waiting": (replace(STRICT, sitters_at_once=1), (30,), 45, ("sitters", 45, 48, "tolerance+5")),
    # Settled at 468, when the sitter before has left, it would end at 482.
    "closing": (
        replace(STRICT, sitters_at_once=1, tolerance=5), (450,), 465, ("closing", 480, 484, "closes+15"),
    ),
    # Neither one more sitter nor one more wash place is enough, and of the hands none are missing.
    "two at once": (
        replace(STRICT, sitters_at_once=1, wash_places=1, tolerance=5), (30,), 30, ("operator", 30, 49, None),
    ),
}  # fmt: skip


@pytest.mark.parametrize("opens", AXES)
@pytest.mark.parametrize(("bench", "starts", "asked", "refusal"), CASES.values(), ids=CASES)
def test_the_reason_its_minutes_and_the_remedy_are_those_of_the_day(opens, bench, starts, asked, refusal):
    assert refused(opens, bench, starts, asked) == refusal


@pytest.mark.parametrize("opens", AXES)
def test_a_gap_in_which_a_sitter_can_be_settled_parts_the_minutes(opens):
    # Settled in 3 minutes: taken are 30-36 (a gap of 1 does not count) and 39-47, when the asked one would be over.
    bench = replace(STRICT, operators=1, timings=Timings(settle=3))

    assert refused(opens, bench, (30,), 30) == ("operator", 39, 47, "operators+1")


@pytest.mark.parametrize("opens", AXES)
def test_the_largest_plate_of_the_order_says_which_minutes_the_wash_is_full(opens):
    # Two of three places are held from 46 to 106, which leaves one: enough for the quarter, too few for the whole.
    bench = replace(STRICT, wash_places=3)

    assert refused(opens, bench, (30, 30), 45, (QUARTER, WHOLE))[:3] == ("wash", 57, 106)
    assert refused(opens, bench, (30, 30), 45, (WHOLE,)) == ("wash", 57, 106, "wash_places+1")


BOUNDS = {
    # One plate is 18 minutes, or 14 with another pair of hands, which would do as well.
    "closing": (replace(STRICT, operators=1), 465, (QUARTER,), ("closing", 480, 483, "closes+15")),
    "wash": (replace(STRICT, wash_places=3), 0, (WHOLE, WHOLE), ("wash", 12, 72, "wash_places+1")),
    "size": (replace(STRICT, wash_places=1), 0, (WHOLE,), ("size", 0, 0, "wash_places+1")),
    "grid": (STRICT, 7, (QUARTER,), ("grid", 7, 7, None)),
    "opening": (STRICT, -15, (QUARTER,), ("opening", -15, 0, None)),
}


@pytest.mark.parametrize("opens", AXES)
@pytest.mark.parametrize(("bench", "asked", "plates", "refusal"), BOUNDS.values(), ids=BOUNDS)
def test_a_broken_bound_names_its_own_minutes(opens, bench, asked, plates, refusal):
    assert refused(opens, bench, (), asked, plates) == refusal


def test_nothing_is_tried_where_no_change_could_help():
    def never(case, asked):
        raise AssertionError("no change gives back what is spent")

    assert refused(0, STRICT, (), 7, admits=never)[0] == "grid"
    assert refused(0, STRICT, (), -15, admits=never)[0] == "opening"


def test_each_change_is_tried_once_a_start_and_its_day_worked_out_once_for_all():
    asked_of = []

    def judge(case, asked):
        asked_of.append((case, asked.start))
        return False

    refusing = Refusing(Case(STRICT, Day(0, 480, 555), ()), (), judge)
    refusals = [refusing.refusal(Sitting(start, (QUARTER,))) for start in (0, 15)]

    # Six changes to name, then four limits to take away in search of the reason, for each of two starts.
    assert [start for _, start in asked_of] == [0] * 10 + [15] * 10
    assert len({id(case) for case, _ in asked_of}) == 10
    assert [each.why for each in refusals] == ["operator", "operator"]


def test_the_changes_tried_are_one_more_of_each_and_then_no_limit_at_all():
    tried = []

    def judge(case, asked):
        bench = case.bench
        tried.append((bench.operators, bench.tank_places, bench.wash_places, bench.sitters_at_once,
                      bench.tolerance, case.day.closes))  # fmt: skip
        return False

    Refusing(Case(Bench(1, 2, 3, 4), Day(0, 480, 555), ()), (), judge).refusal(Sitting(0, (QUARTER,)))

    # 20, 20, 200 and 100 are the most a bench may be set to (bench.py).
    assert tried == [
        (2, 2, 3, 4, 5, 480), (1, 3, 3, 4, 5, 480), (1, 2, 4, 4, 5, 480),
        (1, 2, 3, 4, 10, 480), (1, 2, 3, 4, 5, 495), (1, 2, 3, 5, 5, 480),
        (20, 2, 3, 4, 5, 480), (1, 20, 3, 4, 5, 480), (1, 2, 200, 4, 5, 480), (1, 2, 3, 100, 5, 480),
    ]  # fmt: skip


def test_a_bench_that_has_the_most_of_everything_has_no_remedy():
    full = Bench(20, 20, 200, 100, tolerance=240)
    day = Day(0, 3 * 24 * 60, 3 * 24 * 60)
    refusal = Refusing(Case(full, day, ()), ()).refusal(Sitting(day.closes - 15, (QUARTER,)))

    assert (refusal.why, refusal.lifted_by) == ("racks", None)


def test_a_day_that_no_longer_holds_is_refused_by_its_own_fault():
    # Two sittings at one time with one pair of hands: taken twice from 30 on.
    assert refused(0, replace(STRICT, operators=1), (30, 30), 120)[:3] == ("operator", 30, 36)
