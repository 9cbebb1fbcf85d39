"""How many further sittings fit: against every plan of tiny days."""

from dataclasses import replace

import pytest

from plates.capacity import Bench, Day, Sitting, Span, Timings
from plates.capacity.exact.fill import Asked, filled, with_one
from plates.capacity.what_if import most_further
from tests.plates.capacity.days import DAY, QUARTER, WHOLE, random_day
from tests.plates.capacity.every_plan import some_day

LONG = 3.0

TINY = Timings(
    settle=1, pour=1, sensitise=Span(1, 2), load=1, expose=1, develop=1, wet_window=4, fix=1, fix_within=1,
    wash=Span(3, 4), lift=1, farewell=1, farewell_within=1, first_pour_within=2, next_pour_within=1,
)  # fmt: skip


@pytest.mark.parametrize(
    "bench",
    [
        Bench(timings=TINY, wash_places=1, tolerance=1),
        Bench(timings=TINY, wash_places=2, tolerance=1),
        Bench(timings=TINY, wash_places=2, tolerance=0, operators=2, tank_places=2),
        Bench(timings=TINY, wash_places=3, tolerance=2, sitters_at_once=1),
    ],
)
def test_a_number_fits_a_tiny_day_exactly_when_some_plan_of_all_plans_does(bench):
    day, starts = Day(0, 16, 20, 4), (0, 4, 8)
    tiny = Asked(bench, day, (), QUARTER, starts)
    ways = {
        number: any(
            some_day(bench, replace(day, start_every=1), [Sitting(start, (QUARTER,)) for start in chosen])
            for chosen in choices(starts, number)
        )
        for number in (1, 2, 3)
    }

    found = {number: filled(tiny, number, LONG) for number in ways}

    assert {number: bool(fill.booked) for number, fill in found.items()} == ways
    assert {number: fill.impossible for number, fill in found.items()} == {
        number: not way for number, way in ways.items()
    }
    most = max([0, *(number for number, way in ways.items() if way)])
    if most < 3:
        assert len(most_further(tiny, (), LONG)[0]) == most


def choices(starts, number):
    """Every choice of so many starts, in order, the same one more than once too."""
    if number == 0:
        return [()]
    return [
        (start, *rest) for start in starts for rest in choices([s for s in starts if s >= start], number - 1)
    ]


def test_tiny_days_show_both_answers():
    tight = Asked(Bench(timings=TINY, wash_places=1, tolerance=1), Day(0, 16, 20, 4), (), QUARTER, (0, 4, 8))

    assert (bool(filled(tight, 1, LONG).booked), filled(tight, 3, LONG).impossible) == (True, True)


def test_one_more_may_move_the_sittings_near_it_but_not_those_far_off():
    # Found by trying seeds: at some starts insertion finds no gap and a re-plan does.
    booked = tuple(random_day(3, counts=(1,)))
    day = Asked(Bench(), DAY, booked, QUARTER, ())
    opened = [
        (start, fill.booked)
        for start in range(0, 480, 15)
        if not with_one(day, start, 0.0).booked and (fill := with_one(day, start, LONG)).booked
    ]

    assert opened
    for start, whole in opened:
        far = [(a, b) for a, b in zip(booked, whole, strict=False) if abs(a.sitting.start - start) > 120]
        assert all(before == after for before, after in far)
        assert whole[-1].sitting == Sitting(start, (QUARTER,))


def test_two_sittings_with_the_very_same_plan_are_moved_each_by_itself():
    bench = Bench(operators=2, tank_places=2, wash_places=5)
    one = with_one(Asked(bench, DAY, (), WHOLE, ()), 60, 0.0).booked
    day = Asked(bench, DAY, one + one, QUARTER, ())

    assert with_one(day, 60, 0.0).booked == ()
    assert len(with_one(day, 60, LONG).booked) == 3
