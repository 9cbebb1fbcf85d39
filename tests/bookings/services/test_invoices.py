"""Issuing invoices. The sums are worked out a second time here, with Decimal and ROUND_HALF_UP, by EN 16931.

The rules' wording is second-hand (quality-bars s.2.9): each line net is rounded first (BT-131), sums are exact
(BR-CO-10, -13, -15, -16), tax is rounded once for each category and rate (BT-117).
"""

from datetime import UTC, date, datetime, time, timedelta
from decimal import ROUND_HALF_UP, Decimal

import pytest

from bookings.errors import InvoiceRefused, NotPlaced
from bookings.models import Invoice, InvoiceSeries, SizePrice, TaxClass
from bookings.services import invoices, sittings
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


def test_an_invoice_adds_up_when_worked_out_a_second_time(day):
    order = builders.a_paid_order(day, sizes=("quarter", "half", "sixth"), extras={builders.an_extra(): 3})

    invoice = issued(order)

    rate = Decimal("0.23")
    gross = [8500, 12500, 6500, 3 * 3000]
    nets = [cents(amount / (1 + rate)) for amount in gross]
    tax = cents(sum(nets) * rate)
    assert [line.net for line in invoice.lines.all()] == nets
    assert (invoice.net, invoice.tax, invoice.total) == (sum(nets), tax, sum(nets) + tax)
    assert invoice.rounding == sum(gross) - invoice.total
    assert (invoice.prepaid, invoice.due) == (sum(gross) // 2, sum(gross) - sum(gross) // 2)


def test_the_tax_of_two_rates_is_broken_down(day):
    case = builders.an_extra()
    case.tax_class = TaxClass.objects.create(name="Reduced", category="S", rate_bp=600)
    case.save()
    order = builders.a_paid_order(day, extras={case: 1})

    invoice = issued(order)

    net_plate, net_case = cents(8500 / Decimal("1.23")), cents(3000 / Decimal("1.06"))
    broken_down = {(each["category"], each["rate_bp"]): each for each in invoice.breakdown}
    assert broken_down.keys() == {("S", 2300), ("S", 600)}
    assert broken_down["S", 2300]["taxable"] == net_plate
    assert broken_down["S", 600]["taxable"] == net_case
    assert broken_down["S", 2300]["tax"] == cents(net_plate * Decimal("0.23"))
    assert broken_down["S", 600]["tax"] == cents(net_case * Decimal("0.06"))
    assert invoice.tax == sum(each["tax"] for each in invoice.breakdown)


def test_an_invoice_says_who_sold_what_to_whom_and_when(day):
    order = builders.a_paid_order(day)

    invoice = issued(order)

    assert invoice.label == "INV-2026-0001"
    assert (invoice.issued_on, invoice.supplied_on) == (NOW.date(), builders.SATURDAY)
    assert invoice.seller == {
        "name": "Gannet Lane Plate Rooms", "address": "4 Gannet Lane\nSaltmarrow", "country": "PT",
        "tax_number": "PT999999990", "email": "rooms@example.org",
    }  # fmt: skip
    assert invoice.buyer == {"name": "Ines Madrugada", "email": "ines@example.org"}
    lines = invoice.lines.values_list(
        "position", "text", "quantity", "unit_amount", "tax_category", "tax_rate_bp"
    )
    assert list(lines) == [(1, "quarter plate", 1, 8500, "S", 2300)]


def test_issuing_twice_gives_the_same_invoice(day):
    order = builders.a_paid_order(day)
    first = issued(order)

    again = issued(order, now=NOW + timedelta(days=1))

    assert again == first
    assert InvoiceSeries.objects.get().last == 1


def test_an_issued_invoice_stays_as_it_was_whatever_changes_later(day):
    order = builders.a_paid_order(day)
    issued(order)
    before = Invoice.objects.values().get()

    builders.a_studio(name="Another Name")
    order.client.name = "Another Sitter"
    order.client.save()
    SizePrice.objects.update(amount=1)
    builders.pay(order, 4250)
    issued(order)

    assert Invoice.objects.values().get() == before


def test_the_year_of_the_number_is_that_of_the_venues_clock():
    tent = builders.a_day(on=date(2027, 1, 2), zone="Pacific/Auckland", opens=time(10))
    order = builders.a_paid_order(tent)

    # Eleven in the morning of 31 December in UTC is midnight in Auckland, 13 hours ahead in its summer (tz database).
    before = issued(order, now=datetime(2026, 12, 31, 11, 0, tzinfo=UTC))

    assert (before.label, before.issued_on) == ("INV-2027-0001", date(2027, 1, 1))


def test_each_year_counts_from_one(day):
    issued(builders.a_paid_order(day))
    next_year = builders.a_paid_order(day, at=time(12))

    invoice = issued(next_year, now=NOW + timedelta(days=60))

    assert invoice.label == "INV-2027-0001"


def test_an_order_without_a_name_is_not_invoiced_and_takes_no_number(day):
    order = builders.a_held_order(day)

    with pytest.raises(
        NotPlaced, match=r"^Nobody has put a name to this order yet, so it cannot be invoiced\.$"
    ):
        issued(order)

    assert not InvoiceSeries.objects.exists()


def test_a_cancelled_order_is_not_invoiced(day):
    order = builders.a_paid_order(day)
    sittings.cancel(order_id=order.pk, now=NOW)

    with pytest.raises(InvoiceRefused, match=r"^This order was cancelled; there is nothing to invoice\.$"):
        issued(order)


def test_an_invoice_that_does_not_add_up_is_refused_and_takes_no_number(day, monkeypatch):
    order = builders.a_paid_order(day)
    monkeypatch.setattr(invoices, "broken_rules", lambda totals: ("BR-CO-15: a sum is off.",))

    with pytest.raises(
        InvoiceRefused, match=r"^This invoice does not add up and was not issued: BR-CO-15: a sum is"
    ):
        issued(order)

    assert not InvoiceSeries.objects.exists()
    assert not Invoice.objects.filter(order=order).exists()
