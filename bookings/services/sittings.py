"""Changing a promise that was made: another time, or none at all."""

from datetime import datetime

from django.db import transaction
from django.db.models import F

from bookings.errors import OrderCancelled
from bookings.models import NoticeKind, Order, Sitting, SittingDay
from bookings.selectors.calendar import refuse_dark
from bookings.services import holds, notices, payments
from plates.services import bench
from plates.services.foresight import foreseeing


@foreseeing
@transaction.atomic
def move(*, order_id: int, day_id: int, starts_at: datetime, now: datetime) -> Sitting:
    """Promise the same plates at another time, and write to the client.

    BenchFull, BenchPromised or NotInLight changes nothing.
    """
    day = SittingDay.objects.select_related("venue", "bench_day").get(pk=day_id)
    sitting = Sitting.objects.select_related("bench_job").get(order_id=order_id)
    refuse_dark(day=day, starts_at=starts_at, plates=sitting.bench_job.slots.count())
    bench.move(job_id=sitting.bench_job_id, day_id=day.bench_day_id, starts_at=starts_at, now=now)
    order = _open_order(order_id)
    Sitting.objects.filter(pk=sitting.pk).update(day=day, calendar_sequence=F("calendar_sequence") + 1)
    if not payments.confirm_if_covered(order_id=order_id, now=now) and order.placed_at is not None:
        _keep_uncovered(order, now)
    return Sitting.objects.get(pk=sitting.pk)


@transaction.atomic
def cancel(*, order_id: int, now: datetime) -> Order:
    """Give the place back and write to the client; safe twice. What is refunded is a payment entry of its own."""
    sitting = Sitting.objects.get(order_id=order_id)
    bench.release(job_id=sitting.bench_job_id, now=now)
    order = Order.objects.select_for_update(of=("self",)).get(pk=order_id)
    if order.cancelled_at is None:
        order.cancelled_at = now
        order.save(update_fields=["cancelled_at"])
        Sitting.objects.filter(pk=sitting.pk).update(calendar_sequence=F("calendar_sequence") + 1)
        if order.placed_at is not None:
            notices.queue(order=order, kind=NoticeKind.CANCELLED, due_at=now)
    return order


def _open_order(order_id: int) -> Order:
    order = Order.objects.select_for_update(of=("self",)).get(pk=order_id)
    if order.cancelled_at is not None:
        raise OrderCancelled("This order was cancelled. Book a new sitting instead.")
    return order


def _keep_uncovered(order: Order, now: datetime) -> None:
    """Write to a client whose deposit is not there: the new time is promised if the old one was, else held anew."""
    sitting = Sitting.objects.select_related("bench_job").get(order=order)
    kind = NoticeKind.CONFIRMED
    if sitting.bench_job.confirmed_at is None:
        holds.until_deposit(job_id=sitting.bench_job_id, now=now)
        kind = NoticeKind.DEPOSIT_DUE
    notices.queue(order=order, kind=kind, occasion=str(sitting.calendar_sequence), due_at=now)
