"""Whatever is wished for at whatever prices: what is quoted is what is charged, paid and invoiced, to the cent.

The sum is worked out a second time here, by counting; the invoice is judged by `broken_rules`, which holds EN 16931.
`python -m tests.benchmarks.orders` does the same for ten thousand orders, and for others through the database.
"""

from collections import Counter
from fractions import Fraction
from math import floor

from hypothesis import given, settings

from bookings.money import balance, broken_rules, invoice_totals
from bookings.orders.selectors.lines import lines_by, quote_lines
from tests.bookings.orders.strategies import SINCE, books, discounts, terms, wishes


def counted(book, wish, discount):
    """What a wish costs, without a line being made."""
    prices = {price.size: price for price in book.sizes}
    whole = sum(extra.amount * number for extra, number in wish.extras.items())
    for size, number in Counter(wish.sizes).items():
        price = prices[size]
        later = price.amount if price.further_amount is None else price.further_amount
        whole += price.amount + (number - 1) * later
    for surcharge in book.surcharges:
        whole += surcharge.amount * (wish.sitters - 1 if surcharge.kind == "sitter" else 1)
    if discount is None:
        return whole
    if discount.amount:
        return max(0, whole - discount.amount)
    return whole - floor(Fraction(whole * discount.share_bp, 10_000) + Fraction(1, 2))


def assert_every_sum_is_one(book, wish, discount, agreed):
    lines = lines_by(book=book, wish=wish, on=SINCE, venue=None, discount=discount)
    priced = [line.as_priced() for line in lines]
    quoted = quote_lines(lines=lines, currency="EUR", terms=agreed)
    invoice = invoice_totals(priced, "EUR", quoted.deposit_now)

    assert quoted.gross == sum(line.gross for line in priced) == counted(book, wish, discount)
    assert quoted.gross == invoice.charged == invoice.total_with_tax + invoice.rounding
    assert quoted.tax_by_rate == invoice.tax_groups
    assert invoice.due == quoted.balance_later == balance(quoted.gross, [quoted.deposit_now])
    assert broken_rules(invoice) == ()
    for group in {line.tax_class_id for line in lines}:
        assert sum(line.as_priced().gross for line in lines if line.tax_class_id == group) >= 0


@settings(max_examples=250)
@given(books, wishes, discounts, terms)
def test_what_is_quoted_is_what_is_charged_and_invoiced(book, wish, discount, agreed):
    assert_every_sum_is_one(book, wish, discount, agreed)
