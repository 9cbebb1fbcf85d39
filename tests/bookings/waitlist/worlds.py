"""A day with two places, both sold, and those who wait for one of them."""

from datetime import UTC, datetime, time, timedelta
from uuid import uuid4

from bookings.orders.wishes import Wish
from bookings.waitlist import services as waiting
from bookings.waitlist.selectors import state_of, with_orders
from bookings.waitlist.services import Request
from tests import builders
from tests.builders import NOW

TEN, NOON = (datetime(2026, 11, 28, hour, tzinfo=UTC) for hour in (10, 12))
TWO_HOURS, MINUTE = timedelta(hours=2), timedelta(minutes=1)


def a_day_of_two_places():
    """Starts at ten and at eleven, each for one sitter: two places, counted by hand."""
    bench = builders.a_bench(operators=9, tank_places=9, wash_places=30, sitters_at_once=1)
    return builders.a_day(bench=bench, closes=time(12), racks_empty_by=time(15), start_every=60)


def both_sold(day):
    """The two places of the day, sold."""
    return [builders.a_paid_order(day, at=time(hour)) for hour in (10, 11)]


def join(day, *, email="ottilie@example.org", size="quarter", earliest=TEN, latest=NOON, key=None, now=NOW):
    wish = Wish(sizes=[builders.a_size(size)])
    asked = Request(name="Ottilie Marrow", email=email, earliest=earliest, latest=latest)
    return waiting.join(key=key or uuid4(), day_id=day.pk, wish=wish, asked=asked, now=now)


def again(place):
    return with_orders().get(pk=place.pk)


def state(place, now=NOW):
    return state_of(again(place), now=now)
