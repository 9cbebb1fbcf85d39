"""How often a page asks the database: as often for a full day as for a quiet one."""

from datetime import timedelta

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from bookings.orders.models import Order
from bookings.outbox.models import Notice
from plates.bench.models import PlateSlot
from tests import builders

pytestmark = pytest.mark.django_db

TEN = builders.NOW.replace(day=28, hour=10)
# What each page may ask, session and sign-in included where it has any. The times are a visitor's page; three
# of its queries are for the dates by which plates are ready. Fifteen at most is the bar of quality-bars s.3.3.
ASKED = {"queue": 14, "day": 15, "orders": 4, "times": 15}


@pytest.fixture
def large_day():
    """A day of a bench with many hands, where sixty plates can be promised."""
    builders.usual_finishing()
    bench = builders.a_bench(operators=10, tank_places=10, wash_places=60, sitters_at_once=10)
    return builders.a_day(bench=bench)


def sell(day, sittings, *, plates, first=0):
    """Confirmed orders, each a quarter of an hour after the last, and every plate made."""
    for number in range(first, first + sittings):
        at = TEN + number * timedelta(minutes=15)
        builders.made_plates(builders.a_paid_order(day, at=at, sizes=["quarter"] * plates))


def times_of(size):
    return f"{reverse('times')}?size_{size.pk}=1"


def queries(client, address):
    client = Client() if address.startswith(reverse("times")) else client
    client.get(address)  # what is asked once in the life of a process is not counted
    with CaptureQueriesContext(connection) as asked:
        assert client.get(address).status_code == 200
    return len(asked)


def test_a_day_of_sixty_plates_is_asked_for_like_one_of_five(photographer, large_day):
    sell(large_day, 1, plates=5)
    pages = {
        "queue": reverse("studio:day", args=[large_day.pk]),
        "day": reverse("studio:plan_day", args=[large_day.pk]),
        "orders": reverse("studio:orders"),
        "times": times_of(builders.a_size()),
    }
    few = {page: queries(photographer, address) for page, address in pages.items()}
    sell(large_day, 11, plates=5, first=1)

    many = {page: queries(photographer, address) for page, address in pages.items()}

    assert PlateSlot.objects.count() == 60
    assert (few, many) == (ASKED, ASKED)


def test_a_day_with_letters_to_look_at_asks_once_more(photographer, large_day):
    sell(large_day, 2, plates=1)
    Order.objects.update(needs_new_time=True)
    Notice.objects.update(given_up_at=builders.NOW, sent_at=None)
    queue = reverse("studio:day", args=[large_day.pk])

    asked = queries(photographer, queue)

    shown = photographer.get(queue).content.decode()
    assert asked == ASKED["queue"] + 1
    assert (shown.count("give it a new one"), shown.count("tell the client yourself")) == (2, 4)


def test_the_times_page_asks_for_each_further_day_twice(client, large_day):
    sell(large_day, 1, plates=5)
    address = times_of(builders.a_size())
    one_day = queries(client, address)
    for later in (1, 2, 3):
        builders.a_day(on=builders.SATURDAY + timedelta(days=later), bench=large_day.bench_day.bench)

    four_days = queries(client, address)

    # The jobs of the day and their plates; an empty day has only the first to ask for.
    assert one_day < four_days <= one_day + 3 * 2
