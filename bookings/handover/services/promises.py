"""The date by which a client's plates are to be ready: promised once, and looked at again while they are made."""

from datetime import datetime

from django.db import transaction

from bookings.handover.selectors import promises
from bookings.orders.models import Order, Sitting


@transaction.atomic
def give(*, order_id: int, now: datetime) -> Order:
    """Promise a placed order the date that holds behind all promised before; one there was no longer counts.

    Nothing is promised where no date can be found, as without a day of work.
    """
    sitting = Sitting.objects.select_related("bench_job__day", "order").get(order_id=order_id)
    order, on = sitting.order, promises.promise_for(job=sitting.bench_job, now=now)
    order.promised_on, order.promised_at = on, now if on else None
    order.at_risk_since = order.outlook_on = None
    order.save(update_fields=["promised_on", "promised_at", "at_risk_since", "outlook_on"])
    return order


@transaction.atomic
def postpone(*, order_id: int, now: datetime) -> Order:
    """Promise a later date where one more plate needs it; a date that still holds stays, with its turn."""
    sitting = Sitting.objects.select_related("bench_job__day", "order").get(order_id=order_id)
    promised, found = sitting.order.promised_on, promises.promise_for(job=sitting.bench_job, now=now)
    if promised is not None and found is not None and found <= promised:
        return sitting.order
    return give(order_id=order_id, now=now)


@transaction.atomic
def review(*, now: datetime) -> list[Order]:
    """Note which promises are at risk by the present outlook, and which no longer are; return those that are."""
    found = {each.order.pk: each for each in promises.at_risk(now=now)}
    Order.objects.filter(at_risk_since__isnull=False).exclude(pk__in=found).update(
        at_risk_since=None, outlook_on=None
    )
    for each in found.values():
        order = each.order
        if order.at_risk_since is None or order.outlook_on != each.on:
            order.at_risk_since, order.outlook_on = order.at_risk_since or now, each.on
            order.save(update_fields=["at_risk_since", "outlook_on"])
    return [each.order for each in found.values()]
