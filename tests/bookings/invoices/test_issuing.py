"""Issuing invoices. The sums are worked out a second time here, with Decimal and ROUND_HALF_UP, by EN 16931.

The rules' wording is second-hand (quality-bars s.2.9): each line net is rounded first (BT-131), sums are exact
(BR-CO-10, -13, -15, -16), tax is rounded once for each category and rate (BT-117).
"""

from datetime import UTC, date, datetime, time, timedelta
from decimal import ROUND_HALF_UP, Decimal

import pytest

from bookings.changes.services import sittings
from bookings.errors import InvoiceRefused, NotPlaced
from bookings.invoices.models import Invoice, InvoiceSeries
from bookings.invoices.services import credit_notes
from bookings.invoices.services import issuing as invoices
from bookings.orders.models import Order
from bookings.orders.services import clients as people
from bookings.pricing.models import SizePrice, TaxClass
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db


@pytest.fixture
def day():
    return builders.a_day()


def issued(order, *, now=NOW):
    return invoices.issue(order_id=order.pk, now=now)


def cents(amount):
    return int(Decimal(amount).quantize(Decimal(1), rounding=ROUND_HALF_UP))


def test_an_invoice_at_two_rates_adds_up_when_worked_out_a_second_time(day):
    case = builders.an_extra()
    case.tax_class = TaxClass.objects.create(name="Reduced", category="S", rate_bp=600)
    case.save()
    order = builders.a_paid_order(day, sizes=("quarter", "half", "sixth"), extras={case: 3})

    invoice = issued(order)

    full, reduced = Decimal("0.23"), Decimal("0.06")
    plates, gross = [8500, 12500, 6500], 8500 + 12500 + 6500 + 3 * 3000
    nets = [*(cents(amount / (1 + full)) for amount in plates), cents(3 * 3000 / (1 + reduced))]
    taxable = {2300: sum(nets[:3]), 600: nets[3]}
    taxes = {2300: cents(taxable[2300] * full), 600: cents(taxable[600] * reduced)}
    assert [line.net for line in invoice.lines.all()] == nets
    assert {
        (each["category"], each["rate_bp"]): (each["taxable"], each["tax"]) for each in invoice.breakdown
    } == {("S", rate): (taxable[rate], taxes[rate]) for rate in (2300, 600)}
    assert (invoice.net, invoice.tax) == (sum(nets), sum(taxes.values()))
    assert (invoice.total, invoice.rounding) == (invoice.net + invoice.tax, gross - invoice.net - invoice.tax)
    assert (invoice.prepaid, invoice.due) == (gross // 2, gross - gross // 2)


def test_an_invoice_says_who_sold_what_to_whom_and_when(day):
    order = builders.a_paid_order(day)

    invoice = issued(order)

    assert invoice.label == "INV-2026-0001"
    assert (invoice.issued_on, invoice.supplied_on) == (NOW.date(), builders.SATURDAY)
    assert invoice.seller == {
        "name": "Gannet Lane Plate Rooms", "address": "4 Gannet Lane\nSaltmarrow", "country": "PT",
        "tax_number": "PT999999990", "email": "rooms@example.org", "account": "", "locale": "en_GB",
    }  # fmt: skip
    assert invoice.buyer == {
        "name": "Ines Madrugada", "company": "", "address": "", "country": "", "tax_number": "",
        "email": "ines@example.org",
    }  # fmt: skip
    lines = invoice.lines.values_list(
        "position", "text", "quantity", "unit_amount", "tax_category", "tax_rate_bp"
    )
    assert list(lines) == [(1, "quarter plate", 1, 8500, "S", 2300)]


def test_an_invoice_is_made_out_to_whom_the_client_named_and_due_after_the_days_of_the_studio(day):
    builders.a_studio(payment_days=10)
    order = builders.a_paid_order(day)
    to = people.MadeOutTo("Nets and Lines Lda", "Quay 3\nSaltmarrow", "PT", "PT111111110")
    people.make_out_to(order_id=order.pk, to=to)

    invoice = issued(order)

    assert invoice.buyer == {
        "name": "Ines Madrugada", "company": "Nets and Lines Lda", "address": "Quay 3\nSaltmarrow", "country": "PT",
        "tax_number": "PT111111110", "email": "ines@example.org",
    }  # fmt: skip
    assert invoice.due_on == date(2026, 11, 30)


def test_issuing_twice_gives_the_same_invoice_as_it_was_whatever_has_changed(day):
    order = builders.a_paid_order(day)
    first = issued(order)
    before = Invoice.objects.values().get()

    builders.a_studio(name="Another Name")
    order.client.name = "Another Sitter"
    order.client.save()
    SizePrice.objects.update(amount=1)
    builders.pay(order, 4250)

    assert issued(order, now=NOW + timedelta(days=1)) == first
    assert (Invoice.objects.values().get(), InvoiceSeries.objects.get().last) == (before, 1)


def test_the_year_of_the_number_is_that_of_the_venues_clock():
    tent = builders.a_day(on=date(2027, 1, 2), zone="Pacific/Auckland", opens=time(10))
    order = builders.a_paid_order(tent)

    # Eleven in the morning of 31 December in UTC is midnight in Auckland, 13 hours ahead in its summer (tz database).
    before = issued(order, now=datetime(2026, 12, 31, 11, 0, tzinfo=UTC))

    assert (before.label, before.issued_on) == ("INV-2027-0001", date(2027, 1, 1))


def test_no_number_is_dated_before_a_lower_one_and_each_year_counts_from_one(day):
    first = issued(builders.a_paid_order(day), now=NOW + timedelta(days=2))
    second = issued(builders.a_paid_order(day, at=time(12)), now=NOW)
    third = issued(builders.a_paid_order(day, at=time(14)), now=NOW + timedelta(days=60))

    assert (second.number, second.issued_on, second.due_on) == (2, first.issued_on, first.due_on)
    assert third.label == "INV-2027-0001"


def test_neither_an_order_without_a_name_nor_what_does_not_add_up_takes_a_number(day, monkeypatch):
    with pytest.raises(NotPlaced):
        issued(builders.a_held_order(day, at=time(14)))
    order = builders.a_paid_order(day)
    monkeypatch.setattr(invoices, "broken_rules", lambda totals: ("BR-CO-15: a sum is off.",))

    with pytest.raises(InvoiceRefused, match="was not issued: BR-CO-15"):
        issued(order)

    assert not InvoiceSeries.objects.exists()
    assert not Invoice.objects.exists()


def cancelled(order, *, kept):
    sittings.cancel(order_id=order.pk, now=NOW)
    Order.objects.filter(pk=order.pk).update(kept=kept)
    return order


@pytest.mark.parametrize("kept", [None, 0], ids=["not decided", "nothing"])
def test_a_cancelled_order_of_which_nothing_is_kept_is_not_invoiced(day, kept):
    order = cancelled(builders.a_paid_order(day), kept=kept)

    with pytest.raises(InvoiceRefused, match="cancelled and nothing of it is kept"):
        issued(order)


def test_what_is_kept_of_a_cancelled_order_is_invoiced_at_the_rates_of_what_was_ordered(day):
    case = builders.an_extra()
    case.tax_class = TaxClass.objects.create(name="Reduced", category="S", rate_bp=600)
    case.save()
    order = cancelled(builders.a_paid_order(day, extras={case: 1}), kept=4001)

    invoice = issued(order)

    # Of 40.01 the plate of 85.00 gets 29.573.. and the case of 30.00 gets 10.437..: the cent goes to the case.
    lines = invoice.lines.values_list("text", "quantity", "unit_amount", "tax_rate_bp")
    words = "Cancelled sitting: part of the deposit kept"
    assert list(lines) == [(words, 1, 2957, 2300), (words, 1, 1044, 600)]
    assert (invoice.total + invoice.rounding, invoice.prepaid, invoice.due) == (4001, 5750, 4001 - 5750)
    assert invoice.supplied_on == NOW.date()


def test_an_invoice_stands_while_a_part_of_it_does_and_then_a_new_one_is_issued_under_a_number_of_its_own(
    day,
):
    order = builders.a_paid_order(day, sizes=("quarter", "half"))
    first = issued(order)
    credit_notes.issue(invoice_id=first.pk, reason="x", line_ids=[first.lines.first().pk], now=NOW)
    assert issued(order) == first
    credit_notes.issue(invoice_id=first.pk, reason="Made out to the wrong name", now=NOW)

    second = issued(order)

    assert (second.label, second.turn) == ("INV-2026-0002", 2)
    assert issued(order) == second
