"""The exact maxima of an empty day."""

from dataclasses import replace

import pytest

from plates.capacity import Bench, Budget, Day, Size, problems
from plates.capacity.exact.most import most
from tests.plates.capacity import oracle
from tests.plates.capacity.days import DAY, QUARTER
from tests.plates.capacity.exact.maxima import COLUMNS, Found


@pytest.mark.parametrize("column", COLUMNS)
@pytest.mark.parametrize("places", [2, 4, 6, 8, 10])
def test_every_published_maximum_is_reached_and_proven(column, places):
    # reference: capacity research s.5a, as told in maxima.py.
    table, search = COLUMNS[column]

    assert search(places, table[places]) == Found(table[places], proven=True, sound=True)


@pytest.mark.parametrize(("places", "maximum"), [(4, 28), (6, 42)])
def test_two_operators_make_what_the_wash_holds(places, maximum):
    # reference: capacity research s.5a, the line below the table: racks empty by 480, and no limit of sitters.
    bench, day = Bench(operators=2, wash_places=places, sitters_at_once=20), Day(0, 480, 480, 1)
    found = most(bench, day, (QUARTER,))

    assert (len(found.plan), found.proven) == (maximum, True)
    assert problems(bench, day, found.plan) == ()
    assert oracle.sound(bench, day, found.plan)


@pytest.mark.parametrize(("places", "plates", "maximum"), [(6, 2, 18), (4, 3, 10)])
def test_several_plates_a_sitting_meet_their_bound(places, plates, maximum):
    # The bound is worked out in most.py without a plan, so that a plan which meets it proves itself.
    found = most(Bench(wash_places=places), DAY, (QUARTER,) * plates)

    assert (len(found.plan), found.bound) == (maximum, maximum)
    assert oracle.sound(Bench(wash_places=places), replace(DAY, start_every=1), found.plan)


def test_the_usual_limit_of_sitters_takes_nothing_from_one_operator():
    found = most(Bench(wash_places=4), DAY, (QUARTER,))

    assert (len(found.plan), found.proven) == (30, True)


def test_without_time_the_plan_of_insertion_stands_unproven():
    found = most(Bench(wash_places=6), DAY, (QUARTER,), seconds=1e-7)

    assert 20 < len(found.plan) < found.bound
    assert not found.proven


def test_a_budget_that_runs_out_is_a_proven_limit():
    found = most(Bench(), DAY, (QUARTER, QUARTER), (Budget("collodion", 7),))

    assert (len(found.plan), found.proven) == (3, True)


def test_what_does_not_fit_the_tank_is_made_no_times():
    found = most(Bench(largest_mm=(83.0, 108.0)), DAY, (Size("whole", 2, (165.0, 216.0)),))

    assert (found.plan, found.bound, found.proven) == ((), 0, True)
