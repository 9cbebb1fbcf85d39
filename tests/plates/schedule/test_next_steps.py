"""What is to be done next at the bench, with the default minutes of the design page (s.3)."""

import pytest

from plates.capacity import Bench, Day, Sitting, Size, admit
from plates.schedule.next_steps import NextStep, Work, next_steps

TIMINGS = Bench().timings
(SITTING,) = admit(Bench(), Day(0, 480, 555), [], Sitting(60, (Size("quarter"),))).plans
PLAN = SITTING.plates[0]


def step(stage, since=0.0, **how):
    found = next_steps(TIMINGS, [Work(7, PLAN, stage, since, **how)])
    return found[0] if found else None


def test_a_plate_that_is_not_begun_is_poured_as_planned():
    assert step(None) == NextStep(7, "poured", PLAN.pour, None)


def test_a_plate_to_be_made_again_is_poured_when_there_is_room_for_it():
    assert step(None, begins=200) == NextStep(7, "poured", 200, None)


def test_a_late_pour_moves_the_end_of_the_bath_by_as_much():
    late = PLAN.pour + 9.5

    # Two minutes of pouring, then at the most five in the bath.
    assert step("poured", late) == NextStep(7, "sensitised", PLAN.tank_out + 9.5, late + 2 + 5)


@pytest.mark.parametrize(
    ("stage", "following", "due", "latest"),
    [
        # Exposed and in the developer before eight minutes out of the bath are over, less two of developing.
        ("sensitised", "exposed", PLAN.expose + 2 - PLAN.tank_out, 8 - 2),
        ("exposed", "developed", PLAN.develop + 2 - PLAN.expose - 2, 8 - (PLAN.expose + 2 - PLAN.tank_out)),
        ("developed", "fixed", PLAN.fix + 2 - PLAN.develop - 2, None),
        ("fixed", "washing", PLAN.wash_in - PLAN.fix - 2, None),
        ("washing", "drying", PLAN.lift - PLAN.wash_in, 120),
    ],
)
def test_each_step_follows_the_one_before_by_the_planned_minutes(stage, following, due, latest):
    found = step(stage, 100.0)

    assert found == NextStep(7, following, 100 + due, None if latest is None else 100 + latest)


@pytest.mark.parametrize("stage", ["drying", "varnished", "ready", "handed_over", "spoilt"])
def test_after_the_wash_nothing_is_planned_to_the_minute(stage):
    assert step(stage) is None


def test_the_most_pressing_step_comes_first():
    works = [Work(1, PLAN), Work(2, PLAN, "washing", 0.0), Work(3, PLAN, "poured", PLAN.pour - 30)]

    # Out of the bath as long after the pour as planned, out of the wash after the least of sixty minutes.
    out = PLAN.pour - 30 + (PLAN.tank_out - PLAN.pour)
    assert out < 60 < PLAN.pour
    assert [(each.key, each.due) for each in next_steps(TIMINGS, works)] == [
        (3, out),
        (2, 60),
        (1, PLAN.pour),
    ]
