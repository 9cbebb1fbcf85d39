"""Bottles against days. What can be served is held against SciPy's maximum flow, which knows no order of days."""

from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.sparse import csr_matrix
from scipy.sparse.csgraph import maximum_flow

from plates.chemistry.stock.pools import Need, OnHand, Pool
from plates.chemistry.values import ChemistryValueError
from tests.plates.chemistry.strategies import few

THURSDAY = date(2026, 11, 26)
FRIDAY, SATURDAY, SUNDAY = (THURSDAY + timedelta(days=days) for days in (1, 2, 3))


def pool(*stock, needs=(), a_plate=10, **luck):
    return Pool(tuple(stock), tuple(needs), a_plate, **luck)


def bottle(left, ripe=THURSDAY, best=None):
    return OnHand(left, ripe, best)


def test_a_day_has_the_bottle_less_what_days_before_and_after_it_need():
    found = pool(bottle(100), needs=[Need(FRIDAY, 30), Need(SUNDAY, 50)])

    assert found.room(SATURDAY, 1000) == 20


def test_room_is_never_more_than_was_asked_for():
    assert pool(bottle(100)).room(SATURDAY, 40) == 40


def test_a_bottle_counts_from_the_day_it_is_ripe():
    unripe = pool(bottle(100, ripe=SATURDAY))

    assert (unripe.room(FRIDAY, 1000), unripe.room(SATURDAY, 1000)) == (0, 100)


def test_a_bottle_counts_until_the_day_before_it_is_past_its_best():
    old = pool(bottle(100, best=SATURDAY))

    assert (old.room(FRIDAY, 1000), old.room(SATURDAY, 1000)) == (100, 0)


def test_the_bottle_that_keeps_least_is_used_up_first():
    found = pool(bottle(50), bottle(50, best=SATURDAY), needs=[Need(FRIDAY, 50)])

    assert found.room(SATURDAY, 1000) == 50


def test_a_day_already_short_is_not_made_shorter_and_leaves_other_days_alone():
    found = pool(bottle(100, best=SATURDAY), bottle(60, ripe=SUNDAY), needs=[Need(FRIDAY, 130)])

    assert found.short() == 30
    assert (found.room(FRIDAY, 1000), found.room(SUNDAY, 1000)) == (0, 60)


def test_spoilt_plates_are_counted_over_all_days_up_to_each_together():
    # SciPy, nbinom.ppf(0.9, 10, 0.85) = 4 and for 20 plates 6: the second ten need two spares more.
    two_days = [Need(FRIDAY, 100), Need(SATURDAY, 100)]
    found = pool(bottle(1000), needs=two_days, spoilt_per_cent=15, sure_per_cent=90)

    assert [found.level(day).needs for day in (FRIDAY, SATURDAY)] == [140, 120]


def test_how_a_day_stands_says_what_it_has_and_what_it_needs():
    found = pool(bottle(310), bottle(500, ripe=SUNDAY), needs=[Need(FRIDAY, 60), Need(SATURDAY, 380)])

    assert found.level(SATURDAY) == (250, 380)


def test_a_bottle_past_its_best_before_it_is_ripe_is_refused():
    with pytest.raises(ChemistryValueError, match="past its best before it is ripe"):
        bottle(1, ripe=SUNDAY, best=SATURDAY)


DAYS = st.integers(0, 6).map(lambda days: THURSDAY + timedelta(days=days))
BOTTLES = st.builds(
    lambda left, ripe, keeps: OnHand(left, ripe, None if keeps is None else ripe + timedelta(days=keeps)),
    st.integers(0, 60),
    DAYS,
    st.none() | st.integers(0, 4),
)
NEEDS = st.builds(Need, DAYS, st.integers(0, 60))
POOLS = st.builds(pool, BOTTLES, BOTTLES, BOTTLES, needs=st.lists(NEEDS, max_size=5))


def most_served(stock, needs):
    """The greatest flow from the bottles into the days."""
    size = 2 + len(stock) + len(needs)
    pipes = np.zeros((size, size), dtype=np.int32)
    for place, held in enumerate(stock, 1):
        pipes[0, place] = held.left
        for day, need in enumerate(needs, 1 + len(stock)):
            pipes[place, day] = 10_000 if held.counts(need.on) else 0
            pipes[day, size - 1] = need.units
    return maximum_flow(csr_matrix(pipes), 0, size - 1).flow_value if needs else 0


@few
@given(POOLS)
def test_no_order_of_serving_leaves_less_unserved(found):
    wanted = sum(need.units for need in found.needs)

    assert found.short() == wanted - most_served(found.stock, found.needs)


@few
@given(POOLS, DAYS)
def test_the_room_of_a_day_is_what_a_greater_flow_takes_to_it(found, on):
    with_one = [*found.needs, Need(on, 10_000)]

    assert found.room(on, 10_000) == most_served(found.stock, with_one) - most_served(
        found.stock, found.needs
    )


@few
@given(POOLS, DAYS, BOTTLES)
def test_one_more_bottle_never_leaves_less_room(found, on, more):
    fuller = Pool((*found.stock, more), found.needs, found.a_plate)

    assert fuller.short() <= found.short()
    if found.short() == 0:
        assert fuller.room(on, 500) >= found.room(on, 500)


def test_a_bottle_never_holds_less_than_nothing():
    with pytest.raises(ChemistryValueError, match="What is left must be at least 0"):
        OnHand(-1, THURSDAY)
