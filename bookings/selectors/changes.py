"""What a client may still change about an order. Nothing here writes."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bookings.models import CancelCause, Extra, ExtraKind, Order, SizePrice
from bookings.selectors import calendar, prices
from bookings.selectors.calendar import DayOpenings
from bookings.selectors.orders import Cancelling, Moving, cancelling, moving


@dataclass(frozen=True, slots=True)
class Changes:
    """What is open to a client: other starts, more plates, the post, and what moving and cancelling would cost."""

    openings: Sequence[DayOpenings]
    sizes: Sequence[SizePrice]
    post: Extra | None
    moving: Moving
    cancelling: Cancelling


def changes_of(order: Order, *, now: datetime) -> Changes | None:
    """What may be changed; None once the sitting was cancelled, was begun, or its time has come."""
    job = order.sitting.bench_job
    if order.cancelled_at is not None or job.begun_at is not None or job.starts_at <= now:
        return None
    sizes = [slot.size for slot in job.slots.select_related("size")]
    return Changes(
        openings=calendar.openings(days=calendar.open_days(now=now), sizes=sizes, now=now),
        sizes=_to_add(order),
        post=_post_for(order),
        moving=moving(order, now=now),
        cancelling=cancelling(order, cause=CancelCause.CLIENT, now=now),
    )


def _to_add(order: Order) -> list[SizePrice]:
    """The sizes that are sold on the sitting's day; whether the bench has room is found out by asking it."""
    return prices.price_list(on=order.sitting.bench_job.day.on)


def _post_for(order: Order) -> Extra | None:
    """The post, if it is offered and not chosen yet."""
    if order.lines.filter(extra__kind=ExtraKind.POST).exists():
        return None
    return Extra.objects.filter(kind=ExtraKind.POST, offered=True).first()
