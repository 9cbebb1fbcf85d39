"""From the walk-up line to an order: somebody was called and has come to the tent."""

from datetime import datetime

from django.db import transaction
from django.utils.translation import gettext as _

from bookings.errors import LineRefused
from bookings.handover.services import pickup as pickup_codes
from bookings.handover.services import promises
from bookings.orders.models import Order, Sitting
from bookings.orders.selectors.lines import lines_for
from bookings.orders.services import placing
from bookings.orders.services.placing import Details
from bookings.orders.wishes import Wish
from bookings.payments.services import ledger as payments
from bookings.pricing import selectors as prices
from bookings.studio.selectors import the_studio
from bookings.walkups.models import LinePlace
from plates.schedule.services import jobs as bench


@transaction.atomic
def come(*, place_id: int, details: Details, now: datetime) -> Order:
    """Make a placed order of the place: its bench job is the job of the line, which is promised already. Safe twice.

    LineRefused for who was not called or does not stand in line any more, NotForSale without terms or a price.
    What the terms ask for is owed from now on, and is taken like any other payment. Nobody in the line pays for travel:
    the tent stands there for those who booked it.
    """
    place = _locked(place_id)
    if place.order is not None:
        return place.order
    if place.called_at is None or place.ended:
        raise LineRefused(_("Call somebody who stands in the line first."))
    order = _order(place, details, now)
    # The client's row knows who it is from now on, and is where it can be erased.
    place.order, place.name = order, ""
    place.save(update_fields=["order", "name"])
    pickup_codes.give(order=order)
    order = promises.give(order_id=order.pk, now=now)
    payments.confirm_if_covered(order_id=order.pk, now=now)
    return order


def _order(place: LinePlace, details: Details, now: datetime) -> Order:
    day = place.day
    wish = Wish(sizes=[place.size])
    lines = lines_for(wish=wish, on=day.bench_day.on, venue=day.venue, travel=False)
    order = Order.objects.create(
        reference=placing.new_reference(),
        submission_key=place.key,
        asked=f"number {place.number} in the line of day {day.pk}",
        terms=prices.current_terms(on=day.local(now).date(), venue=day.venue),
        currency=the_studio().currency,
        client=placing.enter_client(details=details, now=now),
        started_at=now,
        placed_at=now,
    )
    placing.save_lines(order=order, lines=lines, job=place.bench_job)
    Sitting.objects.create(
        order=order, day=day, bench_job=place.bench_job, cautions_read_at=now, arrived_at=now
    )
    return order


def _locked(place_id: int) -> LinePlace:
    places = LinePlace.objects.select_related("day__venue", "day__bench_day", "bench_job", "size", "order")
    bench.lock_day(places.get(pk=place_id).day.bench_day_id)
    # Read again: it may have been changed while the lock was waited for.
    return places.get(pk=place_id)
