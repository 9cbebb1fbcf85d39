"""Which discount a code names, and how often it was named already."""

from datetime import date, datetime

from django.db.models import Q
from django.utils.translation import gettext as _

from bookings.common import formats
from bookings.errors import DiscountRefused
from bookings.orders.models import Order
from bookings.pricing.models import Discount
from plates.bench.models import BenchJob


def by_code(*, code: str, on: date, now: datetime, excluding_order: int | None = None) -> Discount:
    """The discount that a code (as `discount_code` writes it) names on a date; DiscountRefused with the reason.

    `excluding_order`: the id of an order whose use does not count: the one that asks, or is about to be given up.
    """
    discount = Discount.objects.filter(code=code).first()
    if discount is None:
        raise DiscountRefused(
            _("There is no discount with the code {code}. Check it, or leave it out.").format(code=code)
        )
    if on < discount.holds_from:
        first = formats.long_date(discount.holds_from)
        raise DiscountRefused(
            _("The code {code} can be used from {first} on. Leave it out until then.").format(
                code=code, first=first
            )
        )
    if discount.holds_until is not None and on > discount.holds_until:
        last = formats.long_date(discount.holds_until)
        raise DiscountRefused(
            _("The code {code} could be used until {last}. Leave it out.").format(code=code, last=last)
        )
    refuse_used_up(discount=discount, now=now, excluding_order=excluding_order)
    return discount


def refuse_used_up(*, discount: Discount, now: datetime, excluding_order: int | None = None) -> None:
    """Raise DiscountRefused when as many other orders as may do so use a discount."""
    most = discount.most_uses
    if most is not None and uses(discount=discount, now=now, excluding_order=excluding_order) >= most:
        raise DiscountRefused(
            _("The code {code} has been used as often as it may be. Choose again without it.").format(
                code=discount.code
            )
        )


def uses(*, discount: Discount, now: datetime, excluding_order: int | None = None) -> int:
    """How many orders use a discount at `now`: those that hold a place, and those that were placed.

    A placed order counts until it is cancelled, also when its place has lapsed, for its deposit may still come.
    """
    held = Q(sitting__bench_job__in=BenchJob.objects.promised(now))
    orders = Order.objects.filter(
        held | Q(placed_at__isnull=False), cancelled_at=None, lines__discount=discount
    )
    if excluding_order is not None:
        orders = orders.exclude(pk=excluding_order)
    return orders.distinct().count()
