"""A day laid out from promises alone."""

import pytest

from plates.capacity import Bench, Budget, Sitting
from plates.capacity.gaps.packing import packed
from tests.plates.capacity import oracle
from tests.plates.capacity.days import DAY, QUARTER, WHOLE

# Promises for which CP-SAT found a plan when tried once, and the patterns of gate 1 find one too.
HELD = [
    [(0, 1), (0, 1)],
    [(0, 2), (0, 1)],
    [(0, 3), (0, 1)],
    [(0, 2), (15, 1)],
    [(90, 3), (75, 1)],
    [(0, 1), (30, 1), (60, 2), (105, 3), (150, 1), (180, 2)],
]


@pytest.mark.parametrize("promises", HELD)
def test_promises_that_can_be_held_are_laid_out_in_their_order(promises):
    sittings = [Sitting(start, (QUARTER,) * count) for start, count in promises]

    booked = packed(Bench(), DAY, sittings)

    assert [each.sitting for each in booked] == sittings
    assert oracle.sound(Bench(), DAY, booked)


def test_promises_that_cannot_be_held_are_given_up():
    # CP-SAT proved once that no plan exists for these four.
    sittings = [Sitting(start, (QUARTER,)) for start in (0, 15, 30, 30)]

    assert packed(Bench(), DAY, sittings) is None


def test_a_day_without_promises_is_laid_out():
    assert packed(Bench(), DAY, []) == ()


def test_a_budget_is_kept():
    sittings = [Sitting(0, (WHOLE,)), Sitting(60, (QUARTER,))]

    assert packed(Bench(), DAY, sittings, [Budget("silver", 3, {"whole": 2})]) is not None
    assert packed(Bench(), DAY, sittings, [Budget("silver", 2, {"whole": 2})]) is None
