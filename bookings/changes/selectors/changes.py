"""What a client may still change about an order. Nothing here writes."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bookings.diary import selectors as calendar
from bookings.diary.selectors import DayOpenings
from bookings.orders.models import CancelCause, Order
from bookings.orders.selectors.account import Cancelling, Moving, cancelling, moving
from bookings.pricing.models import Extra, ExtraKind, SizePrice
from bookings.pricing.selectors import prices


@dataclass(frozen=True, slots=True)
class Changes:
    """What is open to a client: other starts, more plates, the post, and what moving and cancelling would cost."""

    openings: Sequence[DayOpenings]
    sizes: Sequence[SizePrice]
    post: Extra | None
    moving: Moving
    cancelling: Cancelling


def may_change(order: Order, *, now: datetime) -> bool:
    """Whether the sitting is still to come: it was not cancelled, nor begun, and its time has not struck."""
    job = order.sitting.bench_job
    return order.cancelled_at is None and job.begun_at is None and job.starts_at > now


def changes_of(order: Order, *, now: datetime) -> Changes | None:
    """What may be changed; None once the sitting was cancelled, was begun, or its time has come."""
    if not may_change(order, now=now):
        return None
    sizes = [slot.size for slot in order.sitting.bench_job.slots.select_related("size")]
    return Changes(
        openings=calendar.openings(days=calendar.open_days(now=now), sizes=sizes, now=now),
        sizes=_to_add(order),
        post=post_for(order),
        moving=moving(order, now=now),
        cancelling=cancelling(order, cause=CancelCause.CLIENT, now=now),
    )


def _to_add(order: Order) -> list[SizePrice]:
    """The sizes that are sold on the sitting's day; whether the bench has room is found out by asking it."""
    return prices.price_list(on=order.sitting.bench_job.day.on)


def post_for(order: Order) -> Extra | None:
    """The post, if it is offered and not chosen yet."""
    if order.lines.filter(extra__kind=ExtraKind.POST).exists():
        return None
    return Extra.objects.filter(kind=ExtraKind.POST, offered=True).first()
