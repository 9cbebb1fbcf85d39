"""What each taste prefers, on an empty day where every way is free. Expected minutes by hand from design page s.3."""

import pytest

from plates.capacity import Bench, Booked, Day, PlatePlan, Sitting, SittingPlan
from plates.capacity.gaps.bitset import room_of
from plates.capacity.gaps.placing import Placing
from plates.capacity.gaps.reading import Taste, lowest, read_plan
from tests.plates.capacity.days import DAY, QUARTER


def read(taste, booked=(), day=DAY, settle=0):
    plan = read_plan(Placing(Bench(), day, room_of(Bench(), day, booked), (QUARTER,)), settle, taste)
    return plan, plan.plates[0]


@pytest.mark.parametrize(("baths", "minutes"), [("short", 3), ("settle", 4), ("long", 5)])
def test_the_bath_is_as_long_as_the_taste_wants(baths, minutes):
    _, plate = read(Taste(baths=baths))

    assert plate.tank_out - plate.tank_in == minutes


@pytest.mark.parametrize(("pour", "minute"), [("soon", 4), ("settle", 8), ("late", 12)])
def test_the_first_pour_comes_when_the_taste_wants(pour, minute):
    _, plate = read(Taste(pour=pour))

    assert plate.pour == minute


@pytest.mark.parametrize(("tail", "minutes"), [("compact", 7), ("spread", 12)])
def test_the_steps_after_the_bath_are_as_close_as_the_taste_wants(tail, minutes):
    _, plate = read(Taste(tail=tail))

    assert plate.wash_in - plate.tank_out == minutes


@pytest.mark.parametrize(("farewell", "wait"), [("soon", 0), ("pour", 2), ("late", 5)])
def test_the_farewell_waits_as_the_taste_wants(farewell, wait):
    plan, plate = read(Taste(farewell=farewell))

    assert plan.farewell - plate.wash_in == wait


def test_a_lift_goes_beside_other_work_of_the_next_quarter_hour():
    # By hand: washed from 16 to 76 at least; the next sitter is settled from 85 on.
    plate = PlatePlan(pour=89, tank_in=91, tank_out=94, expose=95, develop=97, fix=99, wash_in=101, lift=200)
    next_sitter = Booked(Sitting(85, (QUARTER,)), SittingPlan(85, 101, (plate,)))

    assert read(Taste())[1].lift == 76
    assert read(Taste(), [next_sitter])[1].lift == 84


def test_a_lift_does_not_wait_longer_for_other_work():
    plate = PlatePlan(
        pour=96, tank_in=98, tank_out=101, expose=102, develop=104, fix=106, wash_in=108, lift=200
    )
    next_sitter = Booked(Sitting(92, (QUARTER,)), SittingPlan(92, 108, (plate,)))

    assert read(Taste(), [next_sitter])[1].lift == 76


def test_the_last_lift_ends_when_the_racks_must_be_empty():
    assert read(Taste(), day=Day(0, 18, 77))[1].lift == 76
    assert Placing(Bench(), Day(0, 18, 76), room_of(Bench(), Day(0, 18, 76), ()), (QUARTER,)).starts == 0


def test_an_empty_set_has_no_lowest_minute():
    assert [lowest(0b1000), lowest(0)] == [3, -1]
