"""How full each hour is."""

from dataclasses import replace

import pytest

from plates.capacity import Bench, Day, hours, openings
from plates.capacity.problem.case import Case
from plates.capacity.refusals.clock_hours import Hour, filled
from tests.plates.capacity import oracle
from tests.plates.capacity.days import DAY, QUARTER, random_day


def test_the_hours_run_from_opening_to_closing():
    found = hours(Bench(), Day(600, 750, 900), [], QUARTER)

    assert [(hour.begin, hour.end) for hour in found] == [(600, 660), (660, 720), (720, 750)]


def test_an_empty_hour_holds_what_its_minutes_hold():
    # By hand: one sitter at a time is 18 minutes, so 0, 18, 36, 54 start in the hour; the last ends after it.
    found = hours(Bench(sitters_at_once=1), DAY, [], QUARTER)

    assert found[0] == Hour(0, 60, 0, 4, "operator")


@pytest.mark.parametrize("seed", range(3))
def test_the_plates_booked_are_those_poured_in_the_hour(seed):
    booked = random_day(seed)
    poured = [plate.pour for each in booked for plate in each.plan.plates]

    for hour in hours(Bench(), DAY, booked, QUARTER):
        assert hour.plates_booked == sum(hour.begin <= minute < hour.end for minute in poured)


@pytest.mark.parametrize("seed", range(3))
def test_the_limit_is_a_sound_day_that_takes_no_more_in_that_hour(seed):
    booked, day = random_day(seed), replace(DAY, start_every=1)

    for hour in hours(Bench(), DAY, booked, QUARTER):
        full = filled(Case(Bench(), day, tuple(booked)), hour.begin, hour.end, QUARTER)
        assert len(full.booked) - len(booked) == hour.plates_limit - hour.plates_booked
        assert oracle.sound(Bench(), day, full.booked)
        assert not set(range(hour.begin, hour.end)) & set(
            openings(Bench(), day, full.booked, (QUARTER,)).starts
        )


def test_a_full_wash_is_what_binds():
    bench = Bench(operators=3, tank_places=3, wash_places=1, sitters_at_once=9)

    found = hours(bench, DAY, [], QUARTER)

    # By hand: washed from 12 to 72 at the earliest, so one more sitter fits who starts late in the hour.
    assert (found[0].plates_limit, found[0].bound_by) == (2, "wash")


def test_the_last_hour_is_bound_by_closing():
    found = hours(Bench(), Day(0, 75, 200), [], QUARTER)

    assert found[1] == Hour(60, 75, 0, 0, "closing")
