"""The date by which plates are promised: worked out by hand for an hour of drying, a day of cure, and no luck.

Saturday's plates come onto the rack in the afternoon; varnish is from nine to eleven on Monday to Saturday, packing at
five. So they are varnished on Monday until eleven, cured on Tuesday at eleven, and ready on Tuesday 1 December 2026.
"""

from datetime import date, time, timedelta

import pytest

from bookings.changes.services import additions, no_plate, sittings
from bookings.handover.selectors import promises as selector
from bookings.handover.services import promises
from bookings.orders.models import Order
from bookings.orders.services.placing import Details
from bookings.walkups.services import line as line_service
from bookings.walkups.services import orders as line_orders
from plates.bench.models import PlateSlot, Stage
from plates.finishing.models import ClosedDay
from plates.ledger.services import events as ledger
from tests import builders
from tests.bookings.handover.promise_days import HOUR, MON, SITTING, TUE, WED, a_day_to_promise
from tests.builders import NOW

pytestmark = pytest.mark.django_db


@pytest.fixture
def day():
    return a_day_to_promise()


def promised(order):
    return Order.objects.get(pk=order.pk).promised_on


def test_a_placed_order_is_promised_a_date(day):
    order = builders.a_placed_order(day)

    assert (order.promised_on, order.promised_at) == (TUE, NOW)


def test_a_held_place_without_a_name_is_promised_nothing_yet(day):
    assert builders.a_held_order(day).promised_on is None


def test_closed_days_make_it_later(day):
    ClosedDay.objects.create(on=MON)

    assert builders.a_placed_order(day).promised_on == WED


def test_on_which_clock_is_that_of_the_first_venue(day):
    """Racked at noon in Lisbon it is one in the morning of the same Saturday in Pago Pago (UTC-11), before varnish."""
    builders.usual_finishing(weekdays="1234567")
    order = builders.a_placed_order(day)
    day.venue.zone = "Pacific/Pago_Pago"
    day.venue.save()

    promises.give(order_id=order.pk, now=NOW)

    assert (order.promised_on, promised(order)) == (MON, date(2026, 11, 29))


def test_what_was_promised_first_is_varnished_first(day):
    builders.usual_finishing(session_plates=1)
    first = builders.a_placed_order(day, at=time(12))
    second = builders.a_placed_order(day, at=time(10), now=NOW + HOUR)

    assert (first.promised_on, second.promised_on) == (TUE, WED)


def test_a_promise_is_never_worse_for_what_is_sold_after_it(day):
    builders.usual_finishing(session_plates=1)
    order = builders.a_placed_order(day)

    builders.a_placed_order(day, at=time(12), now=NOW + HOUR)
    builders.a_placed_order(day, at=time(13), now=NOW + 2 * HOUR)

    assert selector.at_risk(now=NOW + 3 * HOUR) == []
    assert promised(order) == TUE


def test_changed_hours_leave_what_was_promised(day):
    order = builders.a_placed_order(day)

    builders.usual_finishing(weekdays="5")
    promises.review(now=NOW)

    assert promised(order) == TUE


def test_without_a_day_of_work_within_reach_nothing_is_promised(day):
    for ahead in range(400):
        ClosedDay.objects.create(on=NOW.date() + timedelta(days=ahead))

    order = builders.a_placed_order(day)

    assert (order.promised_on, order.promised_at) == (None, None)


def test_a_moved_sitting_is_promised_a_new_date(day):
    order = builders.a_paid_order(day)
    later = builders.a_day(on=date(2026, 12, 5), bench=day.bench_day.bench)

    sittings.move(order_id=order.pk, day_id=later.pk, starts_at=SITTING + timedelta(days=7), now=NOW + HOUR)

    assert promised(order) == date(2026, 12, 8)
    assert Order.objects.get().promised_at == NOW + HOUR


def test_one_more_plate_leaves_a_date_that_holds_for_it_too(day):
    order = builders.a_paid_order(day)

    additions.add_plate(order_id=order.pk, size=builders.a_size(), now=NOW + HOUR)

    order.refresh_from_db()
    assert (order.promised_on, order.promised_at) == (TUE, NOW)


def test_one_more_plate_that_needs_longer_puts_the_date_off(day):
    builders.usual_finishing(session_plates=1)
    order = builders.a_paid_order(day)

    additions.add_plate(order_id=order.pk, size=builders.a_size(), now=NOW + HOUR)

    order.refresh_from_db()
    assert (order.promised_on, order.promised_at) == (WED, NOW + HOUR)


def test_a_sitting_made_again_is_promised_a_new_date(day):
    builders.some_terms(no_plate="rebook")
    order = builders.a_paid_order(day)
    plate = builders.made_plate(PlateSlot.objects.get(), Stage.EXPOSED, SITTING)
    ledger.spoil(plate_id=plate.pk, reason="fogged", note="", operator=None, now=SITTING)
    later = builders.a_day(on=date(2026, 12, 5), bench=day.bench_day.bench)

    no_plate.rebook(
        order_id=order.pk, day_id=later.pk, starts_at=SITTING + timedelta(days=7), now=SITTING + HOUR
    )

    assert promised(order) == date(2026, 12, 8)


def test_who_comes_out_of_the_line_is_promised_a_date_and_given_a_code(day):
    place = builders.a_line_place(day)
    line_service.call(place_id=place.pk, now=SITTING)

    order = line_orders.come(place_id=place.pk, details=Details("Ines", "", "", {}), now=SITTING)

    assert order.promised_on == TUE
    assert len(Order.objects.get().pickup_code) == 8
