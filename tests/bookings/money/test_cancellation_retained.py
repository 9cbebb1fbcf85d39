"""What is invoiced of a cancelled order: what is kept, shared over the rates of what was ordered.

The example is worked out by hand: 62.50 in shares of 125 : 30 : 20 is 44.642.., 10.714.., 7.142..
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookings.money import MoneyValueError, PricedLine, retained_lines
from tests.bookings.money.invoice_strategies import sold_lines

ORDERED = [
    PricedLine("Half plate", 1, 12_500, "S", 2300),
    PricedLine("Scan", 3, 1_000, "S", 600),
    PricedLine("Post", 1, 2_000, "E", 0),
]


def test_what_is_kept_is_shared_over_the_rates_by_largest_remainder():
    lines = retained_lines(ORDERED, 6_250, "Kept")

    assert [line.text for line in lines] == ["Kept"] * 3
    assert [(line.quantity, line.unit_gross, line.tax_category, line.rate_bp) for line in lines] == [
        (1, 4_464, "S", 2300), (1, 1_072, "S", 600), (1, 714, "E", 0),
    ]  # fmt: skip
    with pytest.raises(MoneyValueError, match=r"^What is kept must be at least 1, got 0\.$"):
        retained_lines(ORDERED, 0, "Kept")


def test_the_least_sums_are_shared_as_exactly_and_what_is_free_gets_nothing():
    """By hand: one cent and two of 3.00 are 1.00 and 2.00, whatever was given with them."""
    ordered = [
        PricedLine("Scan", 1, 1, "S", 2300),
        PricedLine("Case", 2, 1, "S", 600),
        PricedLine("Gift", 1, 0, "E", 0),
    ]

    assert [line.gross for line in retained_lines(ordered, 300, "Kept")] == [100, 200]


def test_a_discount_lowers_the_share_of_its_rate_and_never_below_nothing():
    taken_off = PricedLine("Discount", -1, 4_000, "S", 600)

    lines = retained_lines([*ORDERED, taken_off], 6_250, "Kept")

    assert [line.rate_bp for line in lines] == [2300, 0]
    assert sum(line.gross for line in lines) == 6_250


@given(lines=sold_lines, kept=st.integers(1, 500_000))
def test_the_parts_add_up_to_what_is_kept(lines, kept):
    if not any(line.gross for line in lines):
        return

    assert sum(line.gross for line in retained_lines(lines, kept, "Kept")) == kept
