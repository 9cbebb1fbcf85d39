"""What became of each invoice, worked out from documents and ledger.

Money comes for an order, not for one of its papers: it pays the oldest invoice of the order first.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from enum import StrEnum

from django.db.models import Count, F, IntegerField, OuterRef, Prefetch, QuerySet, Subquery, Sum
from django.db.models.functions import Coalesce

from bookings.invoices.models import DocumentKind, Invoice
from bookings.money import Claim, Money, left_of
from bookings.orders.models import Order
from bookings.outbox.models import Notice, NoticeKind
from bookings.payments.models import Payment

FURTHEST_EAST = timedelta(hours=14)  # from UTC: nowhere is it a later day than there (tz database)


class State(StrEnum):
    OPEN = "open"
    OVERDUE = "overdue"
    PAID = "paid"
    CREDITED = "credited"  # taken back in whole


@dataclass(frozen=True, slots=True)
class InvoiceStatus:
    """Where one invoice stands; amounts in minor units. `since`: the first day on which it was overdue."""

    invoice: Invoice
    state: State
    asked: Money
    credited: Money
    left: Money
    since: date | None
    letters: int = 0

    @property
    def next_letter(self) -> int:
        """Which letter with this invoice would be the next one, the first being 1."""
        return self.letters + 1


def asked_for(document: Invoice) -> Money:
    """What a document asks for in whole, whatever was paid before; that of a credit note is taken off."""
    return document.total + document.rounding


def status_of(invoice: Invoice, *, now: datetime) -> InvoiceStatus:
    """Where one invoice stands; Invoice.DoesNotExist for a credit note, which stands for nothing by itself."""
    [order] = with_papers(Order.objects.filter(pk=invoice.order_id))
    for found in standings(order, now=now):
        if found.invoice.pk == invoice.pk:
            return found
    raise Invoice.DoesNotExist(f"{invoice} is not an invoice.")


def standings(order: Order, *, now: datetime) -> list[InvoiceStatus]:
    """Where each invoice of an order stands, oldest first; the order comes from `with_papers`."""
    papers = sorted(order.invoices.all(), key=lambda paper: paper.pk)
    invoices = [paper for paper in papers if paper.kind == DocumentKind.INVOICE]
    claims = [Claim(asked_for(invoice), _credited(invoice, papers)) for invoice in invoices]
    left = left_of(claims, sum(payment.amount for payment in order.payments.all()))
    today = order.sitting.day.local(now).date()
    return [_status(*each, today) for each in zip(invoices, claims, left, strict=True)]


def open_invoices(*, now: datetime) -> list[InvoiceStatus]:
    """Every invoice of which something is left to pay, the one due first at the top; the same few queries always."""
    found = _left_on(owing_orders(), now)
    letters = letters_with(each.invoice for each in found)
    counted = [replace(each, letters=letters.get(each.invoice.pk, 0)) for each in found]
    return sorted(counted, key=lambda each: (each.invoice.due_on or date.max, each.invoice.pk))


def overdue(*, orders: Iterable[Order], now: datetime) -> list[InvoiceStatus]:
    """The invoices of these orders whose last day has passed unpaid."""
    asked = [order.pk for order in orders]
    owing = _left_on(owing_orders().filter(pk__in=asked), now) if asked else []
    return [each for each in owing if each.state == State.OVERDUE]


def owing_orders() -> QuerySet[Order]:
    """Orders of which something is left to pay on their invoices."""
    asked = Invoice.objects.filter(order=OuterRef("pk"), kind=DocumentKind.INVOICE)
    taken_back = Invoice.objects.filter(order=OuterRef("pk"), kind=DocumentKind.CREDIT_NOTE)
    paid = Payment.objects.filter(order=OuterRef("pk"))
    whole = F("total") + F("rounding")
    left = _sum(asked, whole) - _sum(taken_back, whole) - _sum(paid, F("amount"))
    return (
        Order.objects.filter(invoices__kind=DocumentKind.INVOICE)
        .distinct()
        .annotate(left=left)
        .filter(left__gt=0)
    )


def may_be_overdue(*, now: datetime) -> QuerySet[Order]:
    """Orders that owe something, with an invoice that was due before today somewhere; `overdue` looks closer."""
    latest = (now + FURTHEST_EAST).date()
    late = Invoice.objects.filter(kind=DocumentKind.INVOICE, due_on__lt=latest)
    return owing_orders().filter(pk__in=late.values("order"))


def with_papers(orders: QuerySet[Order]) -> QuerySet[Order]:
    """The orders with all that `standings` reads, in three queries."""
    papers = Invoice.objects.select_related("series", "corrects__series")
    return orders.select_related("client", "sitting__day__venue").prefetch_related(
        Prefetch("invoices", papers), "payments"
    )


def mailings(*, order: Order) -> list[tuple[Invoice, int]]:
    """Each paper of an order, with which letter to its client the next one would be."""
    papers = list(order.invoices.select_related("series").order_by("pk"))
    letters = letters_with(papers)
    return [(paper, letters.get(paper.pk, 0) + 1) for paper in papers]


def letters_with(invoices: Iterable[Invoice]) -> dict[int, int]:
    """How many letters were written to carry each of these papers."""
    letters = Notice.objects.filter(kind=NoticeKind.INVOICE, invoice__in=[invoice.pk for invoice in invoices])
    counted = letters.order_by().values_list("invoice").annotate(Count("pk"))
    return {invoice_id: count for invoice_id, count in counted if invoice_id is not None}


def _left_on(orders: QuerySet[Order], now: datetime) -> list[InvoiceStatus]:
    found = [(order, standings(order, now=now)) for order in with_papers(orders)]
    for order, invoices in found:
        for each in invoices:
            each.invoice.order = order  # at hand already: a page asks for its reference and its client
    return [each for _, invoices in found for each in invoices if each.left > 0]


def _sum(rows: QuerySet[Invoice] | QuerySet[Payment], what: F | object) -> Coalesce:
    summed = rows.order_by().values("order").annotate(sum=Sum(what)).values("sum")
    return Coalesce(Subquery(summed), 0, output_field=IntegerField())


def _credited(invoice: Invoice, papers: Iterable[Invoice]) -> Money:
    return sum(asked_for(paper) for paper in papers if paper.corrects_id == invoice.pk)


def _status(invoice: Invoice, claim: Claim, left: Money, today: date) -> InvoiceStatus:
    late = left > 0 and invoice.due_on is not None and invoice.due_on < today
    if claim.credited and not claim.outstanding:
        state = State.CREDITED
    elif left <= 0:
        state = State.PAID
    else:
        state = State.OVERDUE if late else State.OPEN
    return InvoiceStatus(
        invoice=invoice,
        state=state,
        asked=claim.asked,
        credited=claim.credited,
        left=left,
        since=invoice.due_on + timedelta(days=1) if late and invoice.due_on else None,
    )
