"""Held against: rules BR-S-05, BR-Z-05, BR-E-05, BR-25 and BR-27 of EN 16931, whose wording was read
second-hand (public copies of the validation rules, release 1.3.16), and amounts worked out by hand."""

import pytest

from bookings.money import PricedLine, TaxGroup
from bookings.money.lines import tax_groups


def line(quantity=1, unit_gross=12_300, tax_category="S", rate_bp=2300, text="Half plate"):
    return PricedLine(text, quantity, unit_gross, tax_category, rate_bp)


@pytest.mark.parametrize(
    ("quantity", "unit_gross", "rate_bp", "net"),
    # By hand at 23 %: 123.00/1.23 = 100.00; 0.05/1.23 = 4.07 cents; 3 x 0.99/1.23 = 241.46 cents.
    # At 100 % 0.05/2 = 2.5 cents, a tie: away from zero, also for a credit.
    [
        (1, 12_300, 2300, 10_000), (1, 5, 2300, 4), (3, 99, 2300, 241), (1, 5, 10_000, 3),
        (-1, 5, 10_000, -3),
    ],
)  # fmt: skip
def test_the_net_of_a_line_is_rounded_once_for_the_whole_line(quantity, unit_gross, rate_bp, net):
    assert line(quantity, unit_gross, rate_bp=rate_bp).net == net


def test_untaxed_and_free_lines_are_their_own_net_and_the_outermost_rates_are_allowed():
    for category in ("Z", "E"):
        sold = line(2, 4_550, category, 0)
        assert (sold.gross, sold.net) == (9_100, 9_100)
    assert line(unit_gross=0).net == 0
    assert (line(rate_bp=1).rate_bp, line(rate_bp=10_000).rate_bp) == (1, 10_000)


def test_a_credited_line_takes_the_line_back_exactly():
    sold, credit = line(3, 99), line(3, 99).credited()

    assert (credit.quantity, credit.unit_gross) == (-3, 99)
    assert (sold.gross + credit.gross, sold.net + credit.net) == (0, 0)


def test_tax_is_rounded_once_for_all_lines_of_a_category_and_rate():
    # By hand: 7 lines of 0.05 are 7 x 4 net = 28, 23 % of it 6.44; line by line it would be 7 x 1.
    groups = tax_groups([line(unit_gross=5)] * 7)

    assert groups == (TaxGroup("S", 2300, 28, 6),)


def test_tax_groups_are_kept_apart_by_category_and_by_rate():
    mixed = [line(), line(rate_bp=600, unit_gross=106), line(1, 100, "Z", 0), line(1, 100, "E", 0), line()]

    assert tax_groups(mixed) == (
        TaxGroup("E", 0, 100, 0),
        TaxGroup("S", 600, 100, 6),
        TaxGroup("S", 2300, 20_000, 4_600),
        TaxGroup("Z", 0, 100, 0),
    )
