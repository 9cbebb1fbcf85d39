"""What a client may still change about an order."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bookings.diary import selectors as calendar
from bookings.diary.selectors import DayOpenings
from bookings.errors import NotByTheTerms
from bookings.orders.models import CancelCause, Order
from bookings.orders.selectors.account import Cancelling, Moving, cancelling, moving
from bookings.pricing import selectors as prices
from bookings.pricing.models import Extra, ExtraKind, NoPlate, SizePrice
from plates.bench import selectors as ledger


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


BY_THE_TERMS = {
    NoPlate.REFUND: gettext_lazy("everything is paid back when no plate could be made"),
    NoPlate.REBOOK: gettext_lazy("there is another sitting without charge when no plate could be made"),
}


@dataclass(frozen=True, slots=True)
class WithoutPlate:
    """What the terms of the order allow: pay everything back, make another sitting without charge, or either."""

    refund: bool
    rebook: bool


def without_plate(order: Order) -> WithoutPlate | None:
    """The ways on for an order whose sitting was begun and whose every plate was given up; None for any other."""
    job = order.sitting.bench_job
    if order.cancelled_at is not None or order.placed_at is None or job.begun_at is None:
        return None
    if any(ledger.live_plate(slot) for slot in ledger.slots_of(job_ids=[job.pk])[job.pk]):
        return None
    rule = order.terms.no_plate
    return WithoutPlate(refund=rule != NoPlate.REBOOK, rebook=rule != NoPlate.REFUND)


def refuse_other_rule(*, order: Order, wanted: NoPlate) -> None:
    """Raise NotByTheTerms when the terms of the order say something else than `wanted`."""
    rule = NoPlate(order.terms.no_plate)
    if rule not in (wanted, NoPlate.CHOICE):
        raise NotByTheTerms(
            _("By the terms of this order (version {terms}), {by_the_terms}.").format(
                terms=order.terms, by_the_terms=BY_THE_TERMS[rule]
            )
        )
