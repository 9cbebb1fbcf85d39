"""The uses of a discount: however many ask for the last one at once, one gets it."""

from datetime import date, datetime

from django.db import transaction

from bookings.orders.models import Order
from bookings.orders.selectors import discounts
from bookings.pricing.models import Discount


@transaction.atomic
def claim(*, code: str, on: date, now: datetime, excluding_order: int | None = None) -> Discount | None:
    """The discount of a code for an order that is saved in the same transaction; None without a code.

    Its row stays locked until then, so that nobody else counts its uses meanwhile. DiscountRefused.
    """
    if not code:
        return None
    Discount.objects.select_for_update().filter(code=code).first()
    return discounts.by_code(code=code, on=on, now=now, excluding_order=excluding_order)


@transaction.atomic
def lock_uses(*, order: Order, now: datetime) -> None:
    """Make sure that an order may still use its discount, for its hold may have lapsed. DiscountRefused."""
    used = order.lines.filter(discount__isnull=False).values("discount")
    if discount := Discount.objects.select_for_update().filter(pk__in=used).first():
        discounts.refuse_used_up(discount=discount, now=now, excluding_order=order.pk)
