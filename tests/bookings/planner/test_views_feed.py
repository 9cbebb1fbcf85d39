"""The calendar for the photographer's telephone, read back with the `icalendar` library.

Outside: RFC 5545 (UID, STATUS, line ends and lengths), RFC 7986 (REFRESH-INTERVAL); from memory.
"""

from datetime import UTC, datetime, time, timedelta

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from icalendar import Calendar

from bookings.changes.services import sittings
from bookings.planner.models import CalendarFeed
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)


def make(photographer, **answers):
    """Press for an address; return the secret in it."""
    page = photographer.post(reverse("studio:telephone"), answers).content.decode()
    return page.partition("/calendar/")[2].partition(".ics")[0]


def fetched(client, secret):
    return client.get(reverse("calendar_feed", args=[secret]))


def entries(client, secret):
    answer = fetched(client, secret)
    assert answer.status_code == 200
    return list(Calendar.from_ical(answer.content).walk("VEVENT"))


@pytest.fixture
def order(day):
    return builders.a_paid_order(day, sizes=("quarter", "quarter", "half"), phone="+351 555 010 010")


def test_a_sitting_is_told_by_time_place_and_plates_and_by_no_name(photographer, order, client):
    [entry] = entries(client, make(photographer))

    assert str(entry["SUMMARY"]) == "2 × quarter, 1 × half"
    assert entry.start == TEN
    assert timedelta(minutes=30) < entry.end - entry.start < timedelta(hours=2)
    assert str(entry["LOCATION"]) == "Gannet Lane, 4 Gannet Lane, Saltmarrow"
    assert str(entry["STATUS"]) == "CONFIRMED"


def test_nothing_of_the_client_is_in_it_unless_it_was_asked_for(photographer, order, client):
    kept = [order.client.name, order.client.email, order.client.phone, order.reference]
    plain = fetched(client, make(photographer)).content.decode()

    named = fetched(client, make(photographer, with_names="on")).content.decode()

    assert [word for word in kept if word in plain] == []
    assert [word in named for word in kept] == [True, False, True, True]


def test_lines_end_and_are_folded_by_the_standard(photographer, order, client):
    lines = fetched(client, make(photographer, with_names="on")).content.split(b"\r\n")

    assert lines[0] == b"BEGIN:VCALENDAR"
    assert max(map(len, lines)) <= 75
    assert not any(b"\n" in line for line in lines)
    assert b"REFRESH-INTERVAL;VALUE=DURATION:PT1H" in lines


def test_a_moved_sitting_is_the_same_entry_at_another_time(photographer, order, client):
    secret = make(photographer)
    [before] = entries(client, secret)
    sittings.move(order_id=order.pk, day_id=order.sitting.day_id, starts_at=TEN + timedelta(hours=4), now=NOW)

    [after] = entries(client, secret)

    assert (after["UID"], after.start) == (before["UID"], TEN + timedelta(hours=4))
    assert after["SEQUENCE"] > before["SEQUENCE"]


def test_a_cancelled_sitting_vanishes(photographer, order, client):
    sittings.cancel(order_id=order.pk, now=NOW)

    assert entries(client, make(photographer)) == []


def test_only_who_has_a_name_and_a_place_is_in_it(photographer, day, client, clock):
    builders.a_held_order(day, at=time(11))
    builders.a_placed_order(day, at=time(12))
    secret = make(photographer)
    held = [(entry.start.hour, str(entry["STATUS"])) for entry in entries(client, secret)]

    clock.shift(timedelta(hours=49))

    assert held == [(12, "TENTATIVE")]
    assert entries(client, secret) == []


@pytest.mark.parametrize(
    ("days", "told"), [(-28, True), (-29, False), (181, True), (183, False)], ids=lambda fact: str(fact)
)
def test_the_last_four_and_the_coming_twenty_six_weeks_are_told(
    photographer, order, client, clock, days, told
):
    secret = make(photographer)

    clock.move_to(TEN - timedelta(days=days, minutes=1))

    assert bool(entries(client, secret)) is told


def test_a_new_address_stops_the_one_before(photographer, order, client):
    old, new = make(photographer), make(photographer)

    assert (fetched(client, old).status_code, fetched(client, new).status_code) == (404, 200)


@pytest.mark.parametrize("secret", ["x", "x" * 43, "../../etc"], ids=["short", "long", "path"])
def test_a_guessed_address_is_nothing(client, photographer, secret):
    make(photographer)

    assert client.get(f"/calendar/{secret}.ics").status_code == 404


def test_an_address_that_was_stopped_opens_nothing(photographer, order, client):
    secret = make(photographer)

    photographer.post(reverse("studio:telephone_stop"))

    assert fetched(client, secret).status_code == 404


def test_who_may_not_sign_in_any_more_has_no_calendar_either(photographer, order, client):
    secret = make(photographer)

    User.objects.update(is_active=False)

    assert fetched(client, secret).status_code == 404


def test_the_address_is_shown_once_and_kept_nowhere(photographer, order):
    secret = make(photographer)

    again = photographer.get(reverse("studio:telephone")).content.decode()

    assert len(secret) == 43  # 32 bytes in the alphabet of RFC 4648 s.5, without padding
    assert secret not in again
    assert secret not in str(CalendarFeed.objects.values_list().get())


def test_nobody_on_the_way_keeps_a_copy(photographer, order, client):
    answer = fetched(client, make(photographer))

    assert "no-store" in answer["Cache-Control"]
    assert answer["X-Robots-Tag"] == "noindex"
    assert answer["Content-Type"] == "text/calendar; charset=utf-8"


def queries(client, secret):
    with CaptureQueriesContext(connection) as asked:
        entries(client, secret)
    return len(asked)


def test_a_full_month_is_asked_for_in_as_many_queries_as_one_sitting(photographer, order, day, client):
    secret = make(photographer)
    few = queries(client, secret)
    for hour in (12, 14):
        builders.a_paid_order(day, at=time(hour))

    assert queries(client, secret) == few
