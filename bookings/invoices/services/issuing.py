"""Issuing invoices: numbered without gaps in the issuing transaction, then frozen."""

from collections.abc import Mapping
from datetime import date, datetime, timedelta

from django.db import transaction
from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop

from bookings.errors import InvoiceRefused, NotPlaced
from bookings.invoices.models import DocumentKind, Invoice
from bookings.invoices.selectors.invoices import credited, newest_invoice
from bookings.invoices.services import freezing as issuing
from bookings.money import InvoiceTotals, PricedLine, broken_rules, invoice_totals, retained_lines
from bookings.orders.models import Client, Order
from bookings.orders.selectors.account import account
from bookings.outbox import services as outbox
from bookings.outbox.models import Notice, NoticeKind
from bookings.studio.models import Studio
from bookings.studio.selectors import the_studio

KEPT = gettext_noop("Cancelled sitting: part of the deposit kept")


@transaction.atomic
def issue(*, order_id: int, now: datetime) -> Invoice:
    """Issue the invoice of an order; one that stands already is returned. NotPlaced or InvoiceRefused.

    Of a cancelled order the sum that is kept is invoiced. After credit notes have taken all of an invoice back, a
    new one is issued.
    """
    order = Order.objects.select_related("terms").locked(order_id)
    before = newest_invoice(order)
    if before is not None and not credited(before):
        return before
    if order.placed_at is None or order.client is None:
        raise NotPlaced(_("Nobody has put a name to this order yet, so it cannot be invoiced."))
    if order.client.erased_at is not None:
        raise InvoiceRefused(
            _("Whoever this order was for asked to be forgotten; nobody is left to invoice.")
        )
    studio = the_studio()
    facts = {
        "kind": DocumentKind.INVOICE,
        "order": order,
        "turn": before.turn + 1 if before else 1,
        "supplied_on": _supplied_on(order),
        "seller": _seller(studio),
        "buyer": _buyer(order.client),
    }
    return issuing.freeze(
        prefix=studio.invoice_series,
        on=order.sitting.day.local(now).date(),
        totals=_sound_totals(order),
        reasons=_exempt_for(order),
        facts=facts,
        due_after=timedelta(days=studio.payment_days),
    )


def _supplied_on(order: Order) -> date:
    """The day of the sitting; of a cancelled one the day on which it was cancelled."""
    day = order.sitting.day
    return day.local(order.cancelled_at).date() if order.cancelled_at else day.bench_day.on


def _seller(studio: Studio) -> dict[str, str]:
    """The studio as it is printed, with the way it writes amounts and dates."""
    return {
        "name": studio.name,
        "address": studio.address,
        "country": studio.country,
        "tax_number": studio.tax_number,
        "email": studio.email,
        "account": studio.account,
        "locale": studio.locale,
    }


def _buyer(client: Client) -> dict[str, str]:
    return {
        "name": client.name,
        "company": client.company,
        "address": client.address,
        "country": client.country,
        "tax_number": client.tax_number,
        "email": client.email,
    }


def _exempt_for(order: Order) -> Mapping[str, str]:
    """Why lines of this order are exempt (BT-120), for all exempt lines together, as their tax is broken down."""
    classes = [line.tax_class for line in order.lines.select_related("tax_class")]
    reasons = dict.fromkeys(each.exemption_reason for each in classes if each.category == "E")
    return {"E": "; ".join(reason for reason in reasons if reason)}


def _sound_totals(order: Order) -> InvoiceTotals:
    """The totals, with a second opinion: an invoice that does not add up is never numbered."""
    totals = invoice_totals(_charged(order), order.currency, account(order).paid)
    if broken := broken_rules(totals):
        raise InvoiceRefused(" ".join([_("This invoice does not add up and was not issued:"), *broken]))
    return totals


def _charged(order: Order) -> list[PricedLine]:
    """What is charged for: the lines of the order, or what is kept of a cancelled one."""
    if order.cancelled_at is None:
        return order.priced_lines()
    if not order.kept:
        raise InvoiceRefused(
            _("This order was cancelled and nothing of it is kept; there is nothing to invoice.")
        )
    return list(retained_lines(order.priced_lines(), order.kept, _(KEPT)))


@transaction.atomic
def mail(*, invoice_id: int, now: datetime, turn: int = 1) -> Notice:
    """Queue the letter that carries an invoice or credit note.

    `turn` says which letter with this paper is asked for: the same one asked for twice is one, and the next one can
    be asked for once the one before has been.
    """
    invoice = Invoice.objects.select_related("order", "series").get(pk=invoice_id)
    written = Notice.objects.filter(kind=NoticeKind.INVOICE, invoice=invoice).count()
    turn = max(1, min(turn, written + 1))
    occasion = invoice.label if turn == 1 else f"{invoice.label} no. {turn}"
    return outbox.queue_paper(invoice=invoice, occasion=occasion, due_at=now)
