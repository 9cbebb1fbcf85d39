"""The largest number of sittings: never above what is proven possible, and how near it must come."""

import pytest

from plates.capacity import Bench, Budget, Day, Size, problems
from plates.capacity.gaps.most import most
from tests.plates.capacity import oracle
from tests.plates.capacity.days import DAY, QUARTER

# reference: capacity research s.5a (computed and proven there with CP-SAT), sitters out by 480.
# (racks empty by, wash places, proven maximum, what gate 1 has reached: measured by tests/benchmarks/gate_one.py)
REACHED = [(555, 2, 16, 16), (555, 4, 30, 26), (480, 2, 14, 14)]


@pytest.mark.parametrize(("racks", "places", "maximum", "reached"), REACHED)
def test_the_plan_found_is_sound_and_never_above_the_proven_maximum(racks, places, maximum, reached):
    bench, day = Bench(wash_places=places), Day(0, 480, racks, start_every=1)
    found = most(bench, day, (QUARTER,))

    assert problems(bench, day, found.plan) == ()
    assert oracle.sound(bench, day, found.plan)
    assert reached <= len(found.plan) <= maximum <= found.bound


@pytest.mark.parametrize(("racks", "places", "maximum"), [(555, 2, 16), (480, 2, 14)])
def test_a_plan_that_meets_the_bound_is_proven(racks, places, maximum):
    found = most(Bench(wash_places=places), Day(0, 480, racks), (QUARTER,))

    assert (len(found.plan), found.proven) == (maximum, True)


def test_a_plan_below_the_bound_is_not_called_proven():
    found = most(Bench(wash_places=4), Day(0, 480, 480), (QUARTER,))

    assert len(found.plan) < found.bound
    assert not found.proven


def test_a_budget_that_runs_out_is_a_proven_limit():
    found = most(Bench(), DAY, (QUARTER, QUARTER), (Budget("collodion", 7),))

    assert (len(found.plan), found.proven) == (3, True)


def test_what_does_not_fit_the_tank_is_made_no_times():
    found = most(Bench(largest_mm=(83.0, 108.0)), DAY, (Size("whole", 2, (165.0, 216.0)),))

    assert (found.plan, found.bound, found.proven) == ((), 0, True)
