"""Figures of an electronic invoice.

Outside: a price of one piece is not negative (BR-27), its decimals are not limited, and a line is its price times its
quantity, rounded to the cent (PEPPOL-EN16931-R120, from memory; EN 16931 itself has no rule for it).
"""

from datetime import date
from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookings.invoices.einvoice import Party, why_not
from bookings.invoices.einvoice.figures import amount, day, percent, unit_price
from tests.bookings.invoices.einvoice.documents import PLATE, a_document


@pytest.mark.parametrize(
    ("minor", "places", "written"),
    [(12_450, 2, "124.50"), (-1, 2, "-0.01"), (0, 2, "0.00"), (1_230, 0, "1230")],
    ids=["cents", "less than nothing", "nothing", "yen"],
)
def test_an_amount_has_the_decimals_of_its_currency(minor, places, written):
    assert amount(minor, places) == written


def test_rates_and_dates_are_written_as_the_standard_wants_them():
    assert (percent(2300), percent(550), day(date(2026, 11, 8))) == ("23.00", "5.50", "20261108")


@pytest.mark.parametrize(
    ("net", "quantity", "price"),
    [(6911, 1, "69.11"), (5658, 3, "18.86"), (1000, 3, "3.333"), (100, 7, "0.143"), (-854, -1, "8.54"), (0, 2, "0.00")],
    ids=["one", "three alike", "a third", "a seventh", "taken off", "for nothing"],
)  # fmt: skip
def test_a_unit_price_has_as_many_decimals_as_its_line_needs(net, quantity, price):
    assert unit_price(net, quantity, 2) == price


@given(net=st.integers(0, 10**9), quantity=st.integers(1, 32_767), sign=st.sampled_from([1, -1]))
def test_a_line_comes_out_of_its_unit_price(net, quantity, sign):
    price = Decimal(unit_price(sign * net, sign * quantity, 2))

    assert price >= 0
    assert (price * quantity).quantize(Decimal("0.01"), ROUND_HALF_UP) == Decimal(net) / 100


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"currency": "TND", "places": 3}, "TND has 3 decimal places, and an electronic invoice has room for 2"),
        ({"seller": Party("x", (), "PT", " ", "")}, "It was issued without a tax number of the studio"),
        ({"seller": Party("x", (), "QQ", "1", "")}, "'QQ', the country it was issued from, is no two-le"),
    ],
    ids=["three decimals", "no tax number", "no country"],
)  # fmt: skip
def test_what_cannot_be_an_electronic_invoice_says_why(changes, words):
    [problem] = why_not(a_document([PLATE], **changes))

    assert problem.startswith(words)
