"""Amounts worked out by hand. That a studio asks for a deposit is common practice, no source."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookings.money import DepositRule, PricedLine, TaxGroup, balance, invoice_totals, quote
from tests.bookings.money.invoice_strategies import sold_lines

SITTING = (
    PricedLine("Half plate", 2, 9_000, "S", 2300),
    PricedLine("Varnish and case", 1, 2_501, "S", 2300),
)
deposit_rules = st.one_of(
    st.builds(DepositRule, share_bp=st.integers(0, 10_000)),
    st.builds(DepositRule, fixed=st.integers(0, 2_000_000)),
)


def test_a_quote_names_total_tax_deposit_and_balance():
    # By hand: 180.00 + 25.01 = 205.01; nets 146.34 + 20.33 = 166.67, 23 % of it 38.33;
    # 30 % of 205.01 is 61.503.
    offer = quote(SITTING, "EUR", DepositRule(share_bp=3000))

    assert (offer.lines, offer.currency, offer.gross) == (SITTING, "EUR", 20_501)
    assert offer.tax_by_rate == (TaxGroup("S", 2300, 16_667, 3_833),)
    assert (offer.deposit_now, offer.balance_later) == (6_150, 14_351)


@pytest.mark.parametrize(
    ("rule", "gross", "deposit"),
    [
        (DepositRule(share_bp=0), 20_501, 0),
        (DepositRule(share_bp=5000), 20_501, 10_251),  # 102.505, a tie
        (DepositRule(share_bp=10_000), 20_501, 20_501),
        (DepositRule(fixed=0), 20_501, 0),
        (DepositRule(fixed=5_000), 20_501, 5_000),
        (DepositRule(fixed=5_000), 4_999, 4_999),
        (DepositRule(fixed=5_000), 0, 0),
    ],
)
def test_a_deposit_is_a_share_or_a_fixed_amount_but_never_more_than_the_total(rule, gross, deposit):
    assert rule.of(gross) == deposit


@given(sold_lines, deposit_rules)
def test_deposit_and_balance_are_the_total_and_the_total_is_what_is_invoiced(lines, rule):
    offer = quote(lines, "EUR", rule)
    invoice = invoice_totals(lines, "EUR", offer.deposit_now)

    assert offer.deposit_now + offer.balance_later == offer.gross == invoice.charged
    assert offer.tax_by_rate == invoice.tax_groups
    assert invoice.due == offer.balance_later == balance(offer.gross, [offer.deposit_now])
