"""What money refuses, and in which words: amounts that are not whole, rules and offers that cannot be."""

import re
from dataclasses import replace
from datetime import UTC, date, datetime
from decimal import Decimal

import pytest

from bookings.money import (
    CancellationRule,
    DepositRule,
    DiscountRule,
    MoneyValueError,
    MovingRule,
    PricedLine,
    TaxGroup,
    VoucherFacts,
    balance,
    credit_totals,
    half_up,
    invoice_totals,
    last_day,
    quote,
    retained_on_cancel,
    split,
)
from bookings.money.amounts import require_currency

PLATE = PricedLine("Half plate", 1, 12_300, "S", 2300)
THIRD, EITHER = DepositRule(share_bp=3000), "is either a share or a fixed amount: give exactly one."
OFFER = quote(
    [PricedLine("Half plate", 2, 9_000, "S", 2300), PricedLine("Case", 1, 2_501, "S", 2300)], "EUR", THIRD
)
TEN = datetime(2026, 6, 10, 10, 0, tzinfo=UTC)
NAIVE, ZONES = TEN.replace(tzinfo=None), "Start and change need datetimes with a time zone."
RATE = "The rate in basis points of tax category"
CODE = "The currency must be three capital letters such as EUR, got"


def line(**changes):
    return lambda: replace(PLATE, **changes)


def offer(**changes):
    return lambda: replace(OFFER, **changes)


def kept(deposit, starts_at=TEN, now=TEN):
    return lambda: retained_on_cancel(CancellationRule(48, 5000), deposit, starts_at, now)


def voucher(**changes):
    facts = {"amount": 10_000, "paid": 10_000, "used": 0, "last_day": None, "withdrawn": False}
    return lambda: VoucherFacts(**facts | changes)


REFUSALS = [
    (lambda: half_up(1, 0), "denominator must be at least 1, got 0."),
    (lambda: half_up(1, -2), "denominator must be at least 1, got -2."),
    (lambda: half_up(Decimal("1.5"), 2), "numerator must be a whole number, got Decimal('1.5')."),
    (lambda: half_up(1.5, 2), "numerator must be a whole number, got 1.5."),
    (lambda: half_up(True, 2), "numerator must be a whole number, got True."),
    (lambda: split(100, ()), "A split needs at least one weight above 0."),
    (lambda: split(100, (0, 0)), "A split needs at least one weight above 0."),
    (lambda: split(100, (2, -1)), "weight must be at least 0, got -1."),
    (lambda: split(100, (1, 0.5)), "weight must be a whole number, got 0.5."),
    (lambda: split(10.0, (1, 1)), "total must be a whole number, got 10.0."),
    (lambda: balance(180.0, ()), "gross must be a whole number, got 180.0."),
    (lambda: balance(18_000, (54.0,)), "paid must be a whole number, got 54.0."),
    (lambda: CancellationRule(-1, 0), "The free hours must be at least 0, got -1."),
    (lambda: CancellationRule(1.5, 0), "The free hours must be a whole number, got 1.5."),
    (lambda: CancellationRule(0, 10_001), "The kept share in basis points must be at most 10000, got 10001."),
    (lambda: CancellationRule(0, -1), "The kept share in basis points must be at least 0, got -1."),
    (lambda: MovingRule(-1, 0), "The free hours must be at least 0, got -1."),
    (lambda: MovingRule(0, 10_001), "The price in basis points must be at most 10000, got 10001."),
    (kept(-1), "The deposit paid must be at least 0, got -1."),
    (kept(1, starts_at=NAIVE), ZONES),
    (kept(1, now=NAIVE), ZONES),
    (lambda: DiscountRule(), f"A discount {EITHER}"),
    (lambda: DiscountRule(share_bp=1, fixed=1), f"A discount {EITHER}"),
    (lambda: DiscountRule(share_bp=10_001), "The discount in basis points must be at most 10000, got 10001."),
    (lambda: DiscountRule(share_bp=0.1), "The discount in basis points must be a whole number, got 0.1."),
    (lambda: DiscountRule(fixed=-1), "The fixed discount must be at least 0, got -1."),
    (lambda: DiscountRule(share_bp=1000).of(-1), "gross must be at least 0, got -1."),
    (lambda: DepositRule(), f"A deposit {EITHER}"),
    (lambda: DepositRule(share_bp=1, fixed=1), f"A deposit {EITHER}"),
    (lambda: DepositRule(share_bp=10_001), "The deposit share in basis points must be at most 10000, got 10001."),
    (lambda: DepositRule(share_bp=-1), "The deposit share in basis points must be at least 0, got -1."),
    (lambda: DepositRule(share_bp=0.3), "The deposit share in basis points must be a whole number, got 0.3."),
    (lambda: DepositRule(fixed=-1), "The fixed deposit must be at least 0, got -1."),
    (lambda: THIRD.of(-1), "gross must be at least 0, got -1."),
    (lambda: quote((), "EUR", THIRD), "A quote needs at least one line."),
    (lambda: quote([PLATE], "euro", THIRD), f"{CODE} 'euro'."),
    (lambda: quote([PLATE.credited()], "EUR", THIRD), "The total of a quote must be at least 0, got -12300."),
    (offer(gross=20_500), "The total of a quote must be the sum of its lines."),
    (offer(gross=-1), "The total of a quote must be at least 0, got -1."),
    (offer(deposit_now=20_502), "The deposit must be at most 20501, got 20502."),
    (offer(deposit_now=-1), "The deposit must be at least 0, got -1."),
    (offer(balance_later=1), "Deposit and balance must add up to the total of the quote."),
    (line(text="  "), "A line needs a text that says what it is for."),
    (line(quantity=0), "The quantity of a line must not be 0."),
    (line(quantity=1.0), "quantity must be a whole number, got 1.0."),
    (line(unit_gross=-1), "The unit price must be at least 0, got -1."),
    (line(unit_gross=True), "The unit price must be a whole number, got True."),
    (line(tax_category="X"), "The tax category must be one of S, Z, E, got 'X'."),
    (line(tax_category=None), "The tax category must be one of S, Z, E, got None."),
    (line(rate_bp=0), f"{RATE} S must be at least 1, got 0."),
    (line(rate_bp=10_001), f"{RATE} S must be at most 10000, got 10001."),
    (line(tax_category="Z"), f"{RATE} Z must be at most 0, got 2300."),
    (line(tax_category="E"), f"{RATE} E must be at most 0, got 2300."),
    (lambda: TaxGroup("S", 0, 100, 0), f"{RATE} S must be at least 1, got 0."),
    (lambda: TaxGroup("S", 2300, 1.5, 0), "taxable must be a whole number, got 1.5."),
    (lambda: TaxGroup("S", 2300, 100, "23"), "tax must be a whole number, got '23'."),
    (lambda: invoice_totals([], "EUR", 0), "An invoice needs at least one line."),
    (lambda: credit_totals([], [], "EUR"), "An invoice needs at least one line."),
    (lambda: invoice_totals([PLATE], "€", 0), f"{CODE} '€'."),
    (lambda: invoice_totals([PLATE], "EUR", 5.0), "prepaid must be a whole number, got 5.0."),
    (lambda: invoice_totals([PLATE], "EUR", "5"), "prepaid must be a whole number, got '5'."),
    (voucher(amount=0), "must be at least 1, got 0."),
    (voucher(used=-1), "must be at least 0, got -1."),
    (voucher(used=10_001), "must be at most 10000, got 10001."),
    (voucher(paid=1.5), "must be a whole number, got 1.5."),
    (lambda: last_day(date(2027, 1, 1), 0), "The months of a voucher must be at least 1, got 0."),
    (lambda: last_day(date(2027, 1, 1), -1), "The months of a voucher must be at least 1, got -1."),
    (lambda: last_day(date(2027, 1, 1), 1.5), "The months of a voucher must be a whole number, got 1.5."),
]  # fmt: skip


@pytest.mark.parametrize(
    ("tried", "message"), REFUSALS, ids=lambda each: each if isinstance(each, str) else ""
)
def test_what_money_cannot_be_is_refused_in_words(tried, message):
    with pytest.raises(MoneyValueError, match=re.escape(message) + "$"):
        tried()


@pytest.mark.parametrize("currency", ["eur", "EURO", "EU", "EUR\n", "", None, 978])
def test_a_currency_is_three_capital_letters(currency):
    with pytest.raises(MoneyValueError, match=re.escape(f"{CODE} {currency!r}.")):
        require_currency(currency)
