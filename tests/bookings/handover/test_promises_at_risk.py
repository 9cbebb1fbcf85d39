"""A promise that the outlook misses, and the outlook as it is told before anybody holds a place.

The dates are worked out by hand as in `test_promises.py`: Saturday's plates are ready on Tuesday 1 December 2026.
"""

from datetime import UTC, datetime, time

import pytest

from bookings import drain as due
from bookings.changes.services import sittings
from bookings.handover.selectors import promises as selector
from bookings.handover.services import promises
from bookings.orders.models import Order, Sitting
from plates.bench.models import PlateSlot, Stage
from plates.finishing.models import ClosedDay
from plates.ledger.services import events as ledger
from tests import builders
from tests.bookings.handover.promise_days import HOUR, MON, SITTING, THU, TUE, WED, a_day_to_promise
from tests.builders import NOW

pytestmark = pytest.mark.django_db


@pytest.fixture
def day():
    return a_day_to_promise()


def test_a_promise_that_the_outlook_misses_is_noted_with_the_date_that_can_be_kept(day):
    order = builders.a_paid_order(day)
    ClosedDay.objects.create(on=MON)

    due.drain(now=NOW + HOUR)

    order.refresh_from_db()
    assert (order.at_risk_since, order.outlook_on, order.promised_on) == (NOW + HOUR, WED, TUE)


def test_what_is_no_longer_at_risk_is_no_longer_noted(day):
    order = builders.a_paid_order(day)
    closed = ClosedDay.objects.create(on=MON)
    promises.review(now=NOW)
    closed.delete()

    promises.review(now=NOW + HOUR)

    order.refresh_from_db()
    assert (order.at_risk_since, order.outlook_on) == (None, None)


def test_looking_again_keeps_since_when(day):
    builders.a_paid_order(day)
    ClosedDay.objects.create(on=MON)
    promises.review(now=NOW)
    ClosedDay.objects.create(on=TUE)

    promises.review(now=NOW + HOUR)

    order = Order.objects.get()
    assert (order.at_risk_since, order.outlook_on) == (NOW, THU)


def test_a_plate_that_was_given_up_and_has_no_new_time_puts_its_promise_at_risk(day):
    order = builders.a_paid_order(day)
    plate = builders.made_plate(PlateSlot.objects.get(), Stage.EXPOSED, SITTING)
    ledger.spoil(plate_id=plate.pk, reason="fogged", note="", operator=None, now=SITTING)

    promises.review(now=SITTING + 12 * HOUR)

    order.refresh_from_db()
    assert (order.at_risk_since, order.outlook_on) == (SITTING + 12 * HOUR, None)


@pytest.mark.parametrize("end", ["ready", "absent", "cancelled"])
def test_what_is_over_is_at_no_risk(day, end):
    order = builders.a_paid_order(day)
    if end == "ready":
        builders.made_plates(order)
    elif end == "absent":
        Sitting.objects.update(absent_at=NOW)
    else:
        sittings.cancel(order_id=order.pk, now=NOW)

    assert selector.at_risk(now=datetime(2027, 1, 1, tzinfo=UTC)) == []


def test_plates_that_dry_longer_than_usual_are_at_risk_while_there_is_still_time(day):
    """Racked on Saturday, still unvarnished on Monday at noon: Tuesday's promise is missed, and Monday knows it."""
    order = builders.a_paid_order(day)
    builders.made_plates(order, stage=Stage.DRYING, now=SITTING)

    found = selector.at_risk(now=datetime(2026, 11, 30, 12, 0, tzinfo=UTC))

    assert [(each.order, each.chance, each.on) for each in found] == [(order, 0.0, WED)]


def test_for_each_day_the_date_that_is_told_before_holding_is_kept(day):
    """Told for the last plate of the day: what is promised in the end is no later."""
    told = selector.ready_days(days=[day], plates=2, now=NOW)

    order = builders.a_placed_order(day, sizes=["quarter"] * 2)

    assert order.promised_on <= told[day.pk]


def test_of_no_day_nothing_is_told():
    assert selector.ready_days(days=[], plates=1, now=NOW) == {}


def test_the_outlook_of_the_pages_is_three_queries(day, django_assert_num_queries):
    builders.a_paid_order(day)
    builders.a_paid_order(day, at=time(12))

    with django_assert_num_queries(3):
        selector.ready_days(days=[day], plates=2, now=NOW)


def test_looking_again_asks_as_often_for_many_orders_as_for_one(day, django_assert_max_num_queries):
    for hour in (10, 11, 12, 13):
        builders.a_paid_order(day, at=time(hour))
    ClosedDay.objects.create(on=MON)
    promises.review(now=NOW)

    with django_assert_max_num_queries(8):
        promises.review(now=NOW)
