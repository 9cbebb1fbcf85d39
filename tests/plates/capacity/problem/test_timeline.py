"""Plans as stored and what they occupy."""

import json

import pytest

from plates.capacity import Bench, Booked, CapacityValueError, PlatePlan, Sitting, SittingPlan, occupations
from tests.plates.capacity.days import QUARTER, WHOLE

PLATE = PlatePlan(pour=4, tank_in=6, tank_out=9, expose=10, develop=12, fix=14, wash_in=16, lift=76)
PLAN = SittingPlan(settle=0, farewell=16, plates=(PLATE,))


def test_a_plan_comes_back_from_json_as_it_went():
    stored = json.loads(json.dumps(PLAN.as_json()))

    assert SittingPlan.from_json(stored) == PLAN


@pytest.mark.parametrize(
    ("change", "message"),
    [
        (lambda plan: plan.pop("settle"), "plan: must hold exactly farewell, plates, settle"),
        (lambda plan: plan.update(settle="0"), "settle: must be a whole number"),
        (lambda plan: plan.update(plates={}), "plates: must be a list"),
        (lambda plan: plan["plates"][0].update(lift=None), "plates[0].lift: must be a whole number"),
        (lambda plan: plan["plates"][0].update(dry=3), "plates[0]: must hold exactly develop, expose"),
    ],
)
def test_a_stored_plan_that_does_not_fit_is_refused(change, message):
    stored = PLAN.as_json()
    change(stored)

    with pytest.raises(CapacityValueError) as refused:
        SittingPlan.from_json(stored)

    assert str(refused.value).startswith(message)


def test_a_plan_needs_one_plate_plan_for_each_plate():
    with pytest.raises(CapacityValueError, match="plan: must hold one plate plan for each plate"):
        Booked(Sitting(0, (QUARTER, QUARTER)), PLAN)


def test_a_single_plate_takes_sixteen_minutes_of_hands():
    # reference: capacity research s.5 ("Attended: 16 per single-plate sitting"); it counts the lift.
    taken = occupations(Bench(), Booked(Sitting(0, (QUARTER,)), PLAN))

    assert sum(each.end - each.begin for each in taken if each.resource == "operator") == 16


def test_a_whole_plate_holds_its_two_wash_places_until_the_lift():
    taken = occupations(Bench(), Booked(Sitting(0, (WHOLE,)), PLAN))

    assert [each[1:] for each in taken if each.resource == "wash"] == [(16, 76, 2, "wash", 0)]


def test_the_steps_come_in_the_order_of_the_work():
    taken = occupations(Bench(), Booked(Sitting(0, (QUARTER,)), PLAN))

    assert [each.what for each in taken] == [
        "present", "settle", "pour", "sensitise", "load", "expose", "develop", "fix", "wash", "lift", "farewell",
    ]  # fmt: skip
