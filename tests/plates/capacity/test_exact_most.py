"""The exact maxima of an empty day."""

import pytest

from plates.capacity import Bench, Budget, Day, Size, problems
from plates.capacity.exact_most import most
from tests.plates.capacity import oracle
from tests.plates.capacity.days import DAY, QUARTER

# reference: capacity research s.5a, single sittings, sitters out by 480; racks empty by 555 or 480. These numbers were
# computed there with CP-SAT in another model of the same rules, not by hand: (racks, operators, wash places, maximum).
MAXIMA = [
    (555, 1, 2, 16), (555, 1, 4, 30), (555, 1, 6, 30), (555, 1, 8, 30),
    (480, 1, 2, 14), (480, 1, 4, 26), (480, 1, 6, 26), (480, 2, 4, 28), (480, 2, 6, 42),
]  # fmt: skip


@pytest.mark.parametrize(("racks", "operators", "places", "maximum"), MAXIMA)
def test_the_maximum_is_reached_and_proven(racks, operators, places, maximum):
    # With sitters_at_once far above what hands allow, as that model had no such limit.
    bench = Bench(operators=operators, wash_places=places, sitters_at_once=20)
    found = most(bench, Day(0, 480, racks), (QUARTER,))

    assert (len(found.plan), found.proven) == (maximum, True)
    assert problems(bench, Day(0, 480, racks, 1), found.plan) == ()
    assert oracle.sound(bench, Day(0, 480, racks, 1), found.plan)


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
