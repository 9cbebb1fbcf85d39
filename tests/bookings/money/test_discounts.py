"""Discounts. Amounts worked out by hand unless a source stands beside them."""

from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookings.money import DiscountRule
from tests.bookings.money.test_amounts import STATES_AND_SEATS

grosses = st.lists(st.integers(0, 500_000), max_size=6)
rules = st.one_of(
    st.builds(DiscountRule, share_bp=st.integers(0, 10_000)),
    st.builds(DiscountRule, fixed=st.integers(0, 2_000_000)),
)


@pytest.mark.parametrize(
    ("rule", "gross", "taken"),
    [
        pytest.param(DiscountRule(share_bp=1000), 10_005, 1_001, id="a tie goes up: 100.05"),
        pytest.param(DiscountRule(share_bp=0), 20_501, 0, id="nothing"),
        pytest.param(DiscountRule(share_bp=10_000), 20_501, 20_501, id="everything"),
        pytest.param(DiscountRule(fixed=5_000), 20_501, 5_000, id="a sum"),
        pytest.param(DiscountRule(fixed=5_000), 4_999, 4_999, id="a sum above the price"),
        pytest.param(DiscountRule(fixed=5_000), 0, 0, id="off nothing"),
    ],
)
def test_a_discount_is_a_share_or_a_sum_but_never_more_than_the_whole(rule, gross, taken):
    assert rule.of(gross) == taken


def test_the_parts_of_a_sum_are_those_of_the_published_apportionment():
    """Sixty units off, spread as sixty seats are there; the source stands in `test_amounts`."""
    populations = [population for _, population, _ in STATES_AND_SEATS]

    assert DiscountRule(fixed=60).parts(populations) == tuple(seats for _, _, seats in STATES_AND_SEATS)


@given(rules, grosses)
def test_the_parts_add_up_to_what_is_taken_off_and_none_is_more_than_its_price(rule, grosses):
    parts = rule.parts(grosses)

    assert sum(parts) == rule.of(sum(grosses))
    assert all(0 <= part <= gross for part, gross in zip(parts, grosses, strict=True))


@given(st.integers(0, 10_000), st.integers(0, 10_000_000))
def test_a_share_is_rounded_as_decimal_rounds_half_up(share_bp, gross):
    """The reference is the standard library's `decimal`, with ROUND_HALF_UP and not its default."""
    wanted = (Decimal(gross) * share_bp / 10_000).quantize(Decimal(1), rounding=ROUND_HALF_UP)

    assert DiscountRule(share_bp=share_bp).of(gross) == wanted
