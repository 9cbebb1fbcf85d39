"""Changing a promise that was made: another time, or none at all."""

from datetime import datetime

from django.db import transaction
from django.db.models import F
from django.utils.translation import gettext as _

from bookings.changes.selectors import refuse_other_rule
from bookings.checkout.services import holds
from bookings.common.formats import amount
from bookings.diary.models import SittingDay
from bookings.diary.selectors import refuse_dark
from bookings.errors import CostChanged, InvoiceRefused, OrderCancelled
from bookings.handover.services import promises
from bookings.invoices.selectors.invoices import fixed_by_invoice
from bookings.money import Money
from bookings.orders.models import CancelCause, LineKind, Order, OrderLine, Sitting
from bookings.orders.selectors.account import cancelling, moving
from bookings.orders.services import placing as order_lines
from bookings.outbox import services as outbox
from bookings.outbox.models import NoticeKind
from bookings.payments.services import ledger as payments
from bookings.pricing.models import NoPlate
from plates.schedule.services import giving_up
from plates.schedule.services import jobs as bench
from plates.schedule.services.replanning import foreseeing


@foreseeing
@transaction.atomic
def move(
    *,
    order_id: int,
    day_id: int,
    starts_at: datetime,
    now: datetime,
    by_client: bool = True,
    shown: Money | None = None,
) -> Sitting:
    """Promise the same plates at another time, and write to the client.

    A late change that the client asked for costs what the terms say, as a line of the order; one by the studio nothing.
    `shown` is what the page said it would cost: CostChanged when it is another sum by now. BenchFull, BenchPromised,
    NotInLight, and InvoiceRefused when a price came to an order that was invoiced, change nothing.
    """
    day = SittingDay.objects.select_related("venue", "bench_day").get(pk=day_id)
    sitting = Sitting.objects.select_related("bench_job").get(order_id=order_id)
    bench.locked_job(job_id=sitting.bench_job_id, and_day=day.bench_day_id)
    order = open_order(order_id=order_id)
    price = moving(order, now=now).price if by_client else 0
    _refuse_another_cost(order, price, shown)
    refuse_dark(day=day, starts_at=starts_at, plates=sitting.bench_job.slots.count())
    bench.move(job_id=sitting.bench_job_id, day_id=day.bench_day_id, starts_at=starts_at, now=now)
    if price:
        _charge_late_move(order, price)
    Sitting.objects.filter(pk=sitting.pk).update(day=day, calendar_sequence=F("calendar_sequence") + 1)
    if order.placed_at is not None:
        promises.give(order_id=order_id, now=now)
    notify(order_id=order_id, now=now)
    return Sitting.objects.get(pk=sitting.pk)


@transaction.atomic
def cancel(
    *,
    order_id: int,
    now: datetime,
    cause: CancelCause = CancelCause.CLIENT,
    shown: Money | None = None,
) -> Order:
    """Give the place back, fix what the order costs after all, and write to the client; safe twice.

    What is given back is a payment entry of its own. `shown` is what the page said would be kept: CostChanged when it
    is another sum by now. BenchPromised once a plate was poured, unless the cause is that no plate could be made; then
    StillUnderWay while there is one after all, and NotByTheTerms where they promise another sitting instead.
    """
    sitting = Sitting.objects.get(order_id=order_id)
    if cause == CancelCause.NO_PLATE:
        giving_up.give_up(job_id=sitting.bench_job_id, now=now)
    else:
        bench.release(job_id=sitting.bench_job_id, now=now)
    order = _locked_order(order_id)
    if cause == CancelCause.NO_PLATE:
        refuse_other_rule(order=order, wanted=NoPlate.REFUND)
    if order.cancelled_at is None:
        left = cancelling(order, cause=cause, now=now)
        _refuse_another_cost(order, left.kept, shown)
        order.cancelled_at, order.cancel_cause, order.kept = now, cause, left.kept
        order.save(update_fields=["cancelled_at", "cancel_cause", "kept"])
        Sitting.objects.filter(pk=sitting.pk).update(calendar_sequence=F("calendar_sequence") + 1)
        if order.placed_at is not None:
            outbox.queue(order=order, kind=NoticeKind.CANCELLED, due_at=now)
    return order


def notify(*, order_id: int, now: datetime) -> None:
    """Write to the client of a sitting with a new time; it is held anew while its deposit is not there."""
    if payments.confirm_if_covered(order_id=order_id, now=now):
        return
    order = Order.objects.get(pk=order_id)
    if order.placed_at is not None:
        _notify_uncovered(order, now)


def _locked_order(order_id: int) -> Order:
    return Order.objects.select_related("terms", "sitting__bench_job").locked(order_id)


def open_order(*, order_id: int) -> Order:
    """The order with its terms, locked until the transaction ends; OrderCancelled when it was."""
    order = _locked_order(order_id)
    if order.cancelled_at is not None:
        raise OrderCancelled(_("This order was cancelled. Book a new sitting instead."))
    return order


def _refuse_another_cost(order: Order, cost: Money, shown: Money | None) -> None:
    if shown is not None and cost != shown:
        raise CostChanged(
            _(
                "By the terms this now costs {cost}, not {shown} as was shown before. Nothing was changed: "
                "look at it again."
            ).format(cost=amount(cost, order.currency), shown=amount(shown, order.currency))
        )


def _charge_late_move(order: Order, price: Money) -> None:
    """Put the late change on the order, taxed like its first plate."""
    if fixed_by_invoice(order):
        raise InvoiceRefused(
            _(
                "This order was invoiced already, so nothing can be added to it. Take the invoice back first, "
                "or say that the studio asked for the change."
            )
        )
    like = order.lines.filter(kind=LineKind.PLATE).order_by("position")[0]
    line = OrderLine(
        kind=LineKind.LATE_MOVE,
        text=str(LineKind.LATE_MOVE.label),
        quantity=1,
        unit_amount=price,
        tax_class=like.tax_class,
        tax_category=like.tax_category,
        tax_rate_bp=like.tax_rate_bp,
    )
    order_lines.add_line(order=order, line=line)


def _notify_uncovered(order: Order, now: datetime) -> None:
    """Write to a client whose deposit is not there: the new time is promised if the old one was, else held anew."""
    sitting = Sitting.objects.select_related("bench_job").get(order=order)
    kind = NoticeKind.CONFIRMED
    if sitting.bench_job.confirmed_at is None:
        holds.until_deposit(job_id=sitting.bench_job_id, now=now)
        kind = NoticeKind.DEPOSIT_DUE
    outbox.queue(order=order, kind=kind, sequence=sitting.calendar_sequence, due_at=now)
