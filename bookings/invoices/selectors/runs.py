"""Orders that wait for their invoice, and how far a run of invoices is."""

from dataclasses import dataclass
from datetime import date, datetime

from django.db.models import Exists, OuterRef, Q, QuerySet

from bookings.invoices.models import DocumentKind, Invoice, InvoiceRun, InvoiceRunOrder
from bookings.invoices.selectors.status import asked_for
from bookings.money import Money
from bookings.orders.models import Order
from bookings.orders.selectors.account import account
from plates.bench.models import Plate, PlateSlot, Stage


def ready_to_invoice(*, now: datetime) -> QuerySet[Order]:
    """Orders with something to invoice that no standing invoice says: none was issued, or all of it taken back again.

    Either a placed order whose plates are all ready or handed over, or whose sitting is past; or a cancelled one of
    which something is kept. A place that lapsed unpaid is no sitting, and an order in a run that is under way is taken
    care of.
    """
    standing = Invoice.objects.filter(
        order=OuterRef("pk"), kind=DocumentKind.INVOICE, lines__credited_by__isnull=True
    )
    asked_for = InvoiceRunOrder.objects.filter(order=OuterRef("pk"), run__finished_at=None, refused="")
    return (
        Order.objects.filter(_delivered(now) | Q(cancelled_at__isnull=False, kept__gt=0))
        .filter(client__erased_at=None)
        .exclude(Exists(standing))
        .exclude(Exists(asked_for))
        .order_by("sitting__bench_job__starts_at", "pk")
    )


def _delivered(now: datetime) -> Q:
    """Placed orders whose sitting was firm and is over: their plates are made, or the day has closed."""
    made = Plate.objects.filter(slot=OuterRef("pk"), stage__in=[Stage.READY, Stage.HANDED_OVER])
    unmade = PlateSlot.objects.filter(~Exists(made), job=OuterRef("sitting__bench_job"))
    past = Q(sitting__bench_job__day__closes_at__lte=now)
    firm = Q(sitting__bench_job__confirmed_at__isnull=False) | Q(sitting__bench_job__begun_at__isnull=False)
    return Q(firm, ~Exists(unmade) | past, placed_at__isnull=False, cancelled_at=None)


@dataclass(frozen=True, slots=True)
class UninvoicedOrder:
    """One order that waits for its invoice; `owed` in minor units of its currency."""

    order: Order
    on: date
    gross: Money
    owed: Money


def uninvoiced(*, now: datetime) -> list[UninvoicedOrder]:
    """The orders that wait for their invoice with what they come to; three queries for any number."""
    orders = ready_to_invoice(now=now).select_related("client", "terms", "sitting__day__bench_day")
    found = [(order, account(order)) for order in orders.prefetch_related("lines", "payments")]
    return [
        UninvoicedOrder(order=order, on=order.sitting.day.bench_day.on, gross=owing.gross, owed=owing.owed)
        for order, owing in found
    ]


@dataclass(frozen=True, slots=True)
class Issued:
    """One order of a run with its invoice, and what that asks for in whole, in minor units."""

    order: Order
    invoice: Invoice
    asked: Money


@dataclass(frozen=True, slots=True)
class Progress:
    """How far a run of invoices is."""

    run: InvoiceRun
    issued: list[Issued]
    refused: list[InvoiceRunOrder]
    waiting: int

    @property
    def done(self) -> int:
        return len(self.issued) + len(self.refused)

    @property
    def whole(self) -> int:
        return self.done + self.waiting

    @property
    def state(self) -> str:
        """What a screen compares to see whether there is anything new."""
        return f"{self.done} {self.run.finished_at or ''}"


def progress(run: InvoiceRun) -> Progress:
    """The orders of a run by what became of them; one query for any number."""
    rows = list(run.orders.select_related("order__client", "invoice__series"))
    return Progress(
        run=run,
        issued=[Issued(row.order, row.invoice, asked_for(row.invoice)) for row in rows if row.invoice],
        refused=[row for row in rows if row.invoice is None and row.refused],
        waiting=sum(row.invoice is None and not row.refused for row in rows),
    )
