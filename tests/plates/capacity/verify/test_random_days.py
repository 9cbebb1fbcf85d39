"""The verifier on whole days: one sitting more finds what the day finds, and a second judge agrees on every mutant."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plates.capacity import Bench, problems
from plates.capacity.verify.day import DayCheck
from tests.plates.capacity import oracle
from tests.plates.capacity.days import DAY, random_day
from tests.plates.capacity.lone import BENCH, LONE, later, moved


@pytest.mark.parametrize("minutes", [0, 1, 30, 45, 46, 140])
def test_adding_one_sitting_finds_what_the_whole_day_finds(minutes):
    bench = replace(BENCH, sitters_at_once=1, wash_places=3)
    extra = later(LONE, minutes)

    added = DayCheck(bench, DAY, [LONE]).adding(extra)

    assert bool(added) == bool(problems(bench, DAY, [LONE, extra]))


def test_adding_one_sitting_leaves_the_day_as_it_was():
    check = DayCheck(BENCH, DAY, [LONE])
    extra = later(LONE, 45)

    assert [check.adding(extra) for _ in range(3)] == [(), (), ()]
    crowded = DayCheck(replace(BENCH, sitters_at_once=1), DAY, [LONE])
    assert crowded.adding(later(LONE, 46)) == ()
    assert len({len(crowded.adding(later(LONE, 44))) for _ in range(3)}) == 1
    assert len(crowded.adding(later(LONE, 44))) > 0


STEPS = ("pour", "tank_in", "tank_out", "expose", "develop", "fix", "wash_in", "lift")


@given(
    seed=st.integers(0, 30),
    changes=st.lists(st.tuples(st.integers(0, 60), st.sampled_from((*STEPS, "settle", "farewell")), st.integers(-3, 3)),
                     min_size=1, max_size=3),
)  # fmt: skip
def test_the_verdict_on_a_mutated_day_is_that_of_the_second_judge(seed, changes):
    booked = DAYS[seed % len(DAYS)][:]
    for pick, step, by in changes:
        number = pick % len(booked)
        each = booked[number]
        if step in STEPS:
            plate = pick % len(each.plan.plates)
            booked[number] = moved(each, plate, **{step: getattr(each.plan.plates[plate], step) + by})
        else:
            booked[number] = moved(each, **{step: getattr(each.plan, step) + by})

    assert (problems(Bench(), DAY, booked) == ()) == consistent(booked)


def consistent(booked):
    """The second judge reads tank and wash from pour and fix, so the stored copies must agree with them."""
    times = Bench().timings
    copies = all(
        plate.tank_in == plate.pour + times.pour and plate.wash_in == plate.fix + times.fix
        for each in booked
        for plate in each.plan.plates
    )
    return copies and oracle.sound(Bench(), DAY, booked)


DAYS = [random_day(seed) for seed in range(4)]
