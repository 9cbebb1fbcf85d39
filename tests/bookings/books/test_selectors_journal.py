"""What the accountant gets, read back by Python's csv. Outside: ISO 4217 for the places, RFC 4180 for the file.

Net and tax of a quarter plate (85.00 at 23 %): 69.11 and 15.90, one cent too much, which is the rounding.
"""

import csv
import io
from datetime import UTC, date, datetime
from decimal import Decimal

import pytest

from bookings.books.selectors import journal
from bookings.books.selectors.journal import Period
from bookings.common import formats
from bookings.orders.models import Order
from bookings.pricing.models import TaxClass
from plates.common.spreadsheet import lines
from tests import builders
from tests.builders.invoices import a_credit_note, an_invoice

pytestmark = pytest.mark.django_db

NOVEMBER = Period(since=date(2026, 11, 1), until=date(2026, 11, 30))
THE_TWENTIETH = Period(since=date(2026, 11, 20), until=date(2026, 11, 20))


def read(rows):
    return list(csv.DictReader(io.StringIO(b"".join(lines(rows)).decode(), newline="")))


def documents(period=NOVEMBER):
    return read(journal.documents(period=period))


def payments(period=NOVEMBER):
    return read(journal.payments(period=period))


def test_an_invoice_is_one_row_with_net_and_tax_of_each_rate(day):
    case = builders.an_extra()
    case.tax_class = TaxClass.objects.create(name="Reduced", category="S", rate_bp=600)
    case.save()
    invoice = an_invoice(day, extras={case: 1}, name="Ines Madrugada")

    [row] = documents()

    assert row == {
        "Number": "INV-2026-0001", "Kind": "Invoice", "Takes back": "", "Issued on": "2026-11-20",
        "Supplied on": "2026-11-28", "Due on": "2026-12-04", "Order": invoice.order.reference,
        "Buyer": "Ines Madrugada", "Net S 6 %": "28.30", "Tax S 6 %": "1.70", "Net S 23 %": "69.11",
        "Tax S 23 %": "15.90", "Net": "97.41", "Tax": "17.60", "Total with tax": "115.01", "Rounding": "-0.01",
        "To pay": "115.00", "Paid before": "57.50", "Currency": "EUR",
    }  # fmt: skip


def test_a_credit_note_is_taken_off_so_that_columns_add_up(day, django_assert_num_queries):
    a_credit_note(an_invoice(day))

    with django_assert_num_queries(1):  # however many rows there are
        note, invoice = documents()  # the series in the order of their letters

    assert (note["Kind"], note["Takes back"]) == ("Credit note", invoice["Number"])
    sums = {name: Decimal(note[name]) + Decimal(invoice[name]) for name in ("Net S 23 %", "Tax", "To pay")}
    assert set(sums.values()) == {Decimal("0.00")}


def test_every_movement_of_money_says_when_here_and_in_utc(day):
    order = builders.a_paid_order(day)
    builders.pay(order, -1050, reference="till 9")

    deposit, returned = payments()

    assert deposit["Amount"] == "42.50"
    assert returned == {
        "Date": "2026-11-20", "Clock of": "Europe/Lisbon", "At (UTC)": "2026-11-20T09:00:00Z",
        "For": order.reference, "Method": "Cash", "Amount": "-10.50", "Currency": "EUR", "Reference": "till 9",
        "Note": "",
    }  # fmt: skip


def test_a_period_is_that_of_the_clock_at_the_venue():
    # 10:59 UTC is 23:59 in Auckland, 11:00 UTC the midnight after it (tz database: UTC+13 in its summer).
    order = builders.a_placed_order(builders.a_day(zone="Pacific/Auckland"))
    for minute, hour in ((59, 10), (0, 11)):
        builders.pay(order, 100, now=datetime(2026, 11, 20, hour, minute, tzinfo=UTC))

    assert [row["At (UTC)"] for row in payments(THE_TWENTIETH)] == ["2026-11-20T10:59:00Z"]


def test_both_days_of_a_period_count_and_none_beyond(day):
    an_invoice(day)

    assert [len(found(THE_TWENTIETH)) for found in (documents, payments)] == [1, 1]
    for empty in (
        Period(date(2026, 11, 1), date(2026, 11, 19)),
        Period(date(2026, 11, 21), date(2026, 12, 31)),
    ):
        assert [len(found(empty)) for found in (documents, payments)] == [0, 0]


def test_no_name_or_reference_is_worked_out_by_a_spreadsheet(day):
    # OWASP, CSV injection. A number below nothing stays a number.
    order = builders.a_paid_order(day, name="=1+1")
    builders.pay(order, -4250, reference="@bank")
    an_invoice_row = an_invoice(day, name="+351 Ines")

    assert [row["Buyer"] for row in documents()] == [f"'{an_invoice_row.buyer['name']}"]
    returned = payments()[1]
    assert (returned["Reference"], returned["Amount"]) == ("'@bank", "-42.50")


@pytest.mark.parametrize(
    ("currency", "written"),
    [("EUR", "42.50"), ("JPY", "4250"), ("KWD", "4.250")],
)
def test_amounts_have_as_many_places_as_their_currency(day, currency, written):
    order = builders.a_paid_order(day)
    Order.objects.filter(pk=order.pk).update(currency=currency)

    assert payments()[0]["Amount"] == written
    assert str(formats.major(0, "EUR")) == "0.00"
