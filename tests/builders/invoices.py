"""Papers and orders for the tests of the books."""

from datetime import timedelta

from bookings.invoices.services import credit_notes
from bookings.invoices.services import issuing as invoices
from bookings.orders.models import Order
from tests import builders
from tests.builders import NOW

BROAD = {"operators": 10, "tank_places": 10, "wash_places": 60, "sitters_at_once": 10}


def broad_day(**facts):
    """A day of a bench with many hands, so that many sittings can have the same start."""
    return builders.a_day(bench=builders.a_bench(**BROAD), **facts)


def issued(order, *, now=NOW):
    return invoices.issue(order_id=order.pk, now=now)


def an_invoice(day, *, paid=None, now=NOW, **asked):
    """An invoice over 85.00 unless something else is `asked`, 42.50 of it paid unless `paid` says otherwise."""
    return issued(builders.a_paid_order(day, amount=paid, **asked), now=now)


def a_credit_note(invoice, *, lines=None, now=NOW):
    """A credit note over the whole invoice, or over some of its lines."""
    return credit_notes.issue(
        invoice_id=invoice.pk,
        reason="The plate cracked on its way home.",
        line_ids=lines and [line.pk for line in lines],
        now=now,
    )


def made_order(day, *, number=0, paid=None, **asked):
    """A paid order whose plates are ready, its start so many quarters of an hour after ten."""
    at = NOW.replace(day=28, hour=10) + number * timedelta(minutes=15)
    order = builders.a_paid_order(day, at=at, amount=paid, **asked)
    builders.made_plates(order)
    return Order.objects.get(pk=order.pk)
