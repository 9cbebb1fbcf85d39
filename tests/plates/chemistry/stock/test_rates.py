"""What is learned from stock-takes. The rule is ours (own_rates.py); worked by hand beside each check."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plates.chemistry.stock.rates import PRIOR_CM2, Between, own_rate
from plates.chemistry.values import ChemistryValueError
from tests.plates.chemistry.strategies import few, thousandths

TABLE = Fraction("0.03")


def between(used, area):
    return Between(Fraction(used), Fraction(area))


def test_without_stock_takes_the_table_holds():
    assert own_rate(TABLE, []) == own_rate(TABLE, [between(0, 500), between(-2, 500), between(5, 0)])
    assert own_rate(TABLE, []).ml_a_cm2 == TABLE


def test_as_much_area_as_the_table_counts_for_goes_halfway():
    # By hand: 1800 cm² at 0.03 and 1800 cm² at 0.04 are 0.035 on the average.
    found = own_rate(TABLE, [between(72, PRIOR_CM2)])

    assert found.ml_a_cm2 == Fraction("0.035")
    assert found.learned_from_cm2 == PRIOR_CM2


def test_one_spill_is_held_to_twice_the_middle():
    # By hand: the middle is 0.03, so a litre for 100 cm² counts as 0.06: (1800·0.03 + 900·0.03 + 100·0.06) / 2800.
    found = own_rate(TABLE, [between(27, 900), between(1000, 100)])

    assert found.ml_a_cm2 == Fraction(87, 2800)


def test_a_greater_spill_teaches_no_more_than_a_great_one():
    others = [between(27, 900), between(36, 900)]

    assert own_rate(TABLE, [*others, between(500, 300)]) == own_rate(TABLE, [*others, between(5000, 300)])


def test_a_studio_that_pours_more_is_believed_in_the_end():
    # Far more of its own than of the table: within a hundredth of its own 0.08 mL/cm².
    found = own_rate(TABLE, [between(80, 1000)] * 400)

    assert found.ml_a_cm2 == pytest.approx(Fraction("0.08"), rel=0.01)


def test_a_table_without_a_rate_is_refused():
    with pytest.raises(ChemistryValueError, match="The rate of the table must be above 0"):
        own_rate(0, [])


TAKES = st.lists(st.builds(Between, thousandths(1, 60), thousandths(100, 3000)), max_size=6)


@few
@given(TAKES)
def test_the_rate_lies_between_the_least_and_the_greatest_that_were_found(takes):
    rates = [TABLE, *(each.rate for each in takes)]

    assert min(rates) <= own_rate(TABLE, takes).ml_a_cm2 <= max(rates)


@few
@given(TAKES, st.integers(2, 9))
def test_in_other_units_it_is_the_same_rate(takes, factor):
    scaled = [Between(each.used_ml * factor, each.area_cm2) for each in takes]

    assert own_rate(TABLE * factor, scaled).ml_a_cm2 == factor * own_rate(TABLE, takes).ml_a_cm2


@few
@given(TAKES, st.permutations(range(6)))
def test_the_order_of_the_stock_takes_says_nothing(takes, order):
    turned = [takes[place] for place in order if place < len(takes)]

    assert own_rate(TABLE, turned) == own_rate(TABLE, takes)
