"""The calendar file of a sitting, parsed back.

Outside: RFC 5545 (text of s.3.3.5 read in public copies; s.3.6.5 and the rules of RFC 5546 from memory), the tz
database by `zoneinfo`, and dateutil's own reader of VTIMEZONE, which shares no code with the one that wrote it.
"""

import io
from datetime import UTC, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from dateutil.tz import tzical
from icalendar import Calendar

from bookings.changes.services import sittings
from bookings.orders.ics import sitting_calendar
from bookings.orders.models import Order
from tests import builders

pytestmark = pytest.mark.django_db
STAMP = datetime(2026, 11, 21, 8, 30, tzinfo=UTC)


@pytest.fixture(autouse=True)
def _address(settings):
    settings.SITE_ADDRESS = "https://rooms.example.org"


def written(order, **changes):
    return sitting_calendar(Order.objects.get(pk=order.pk), now=STAMP, **changes)


def the_event(content):
    return Calendar.from_ical(content).events[0]


def test_the_entry_begins_at_the_promised_start_and_ends_with_the_farewell():
    order = builders.a_paid_order(builders.a_day(), at=time(10))
    plan = order.sitting.bench_job.plan

    event = the_event(written(order))

    assert event.start == datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
    # A day opens at minute 0 of its plan, here 10:00; the farewell takes two minutes (design.md s.3).
    assert event.end == datetime(2026, 11, 28, 10, 0, tzinfo=UTC) + timedelta(minutes=plan["farewell"] + 2)
    assert event["dtstart"].params["TZID"] == "Europe/Lisbon"


def test_an_entry_names_its_method_stamp_place_and_maker():
    order = builders.a_paid_order(builders.a_day())

    calendar = Calendar.from_ical(written(order))
    event = calendar.events[0]

    assert calendar["method"] == "PUBLISH"
    assert calendar["version"] == "2.0"
    assert calendar["prodid"]
    assert event["uid"] == f"{order.reference}@rooms.example.org"
    assert event["dtstamp"].dt == STAMP
    assert event["sequence"] == 0
    assert event["status"] == "CONFIRMED"
    assert event["location"] == "Gannet Lane, 4 Gannet Lane, Saltmarrow"
    assert event["summary"] == "Portrait sitting, Gannet Lane Plate Rooms"
    assert event["organizer"] == "mailto:rooms@example.org"
    assert "attendee" not in event  # RFC 5546 s.3.2.1: PUBLISH names no attendee


def test_a_sitting_that_is_only_held_is_tentative():
    order = builders.a_placed_order(builders.a_day())

    assert the_event(written(order))["status"] == "TENTATIVE"


def test_moving_and_cancelling_keep_the_uid_and_raise_the_sequence():
    day = builders.a_day()
    order = builders.a_paid_order(day)
    first = the_event(written(order))
    noon = datetime(2026, 11, 28, 12, 0, tzinfo=UTC)

    sittings.move(order_id=order.pk, day_id=day.pk, starts_at=noon, now=STAMP)
    moved = the_event(written(order))
    sittings.cancel(order_id=order.pk, now=STAMP)
    calendar = Calendar.from_ical(written(order, cancelled=True))
    gone = calendar.events[0]

    assert moved.start == noon
    assert [event["sequence"] for event in (first, moved, gone)] == [0, 1, 2]
    assert first["uid"] == moved["uid"] == gone["uid"]
    assert (calendar["method"], gone["status"]) == ("CANCEL", "CANCELLED")


def test_lines_end_in_crlf_and_hold_no_more_than_75_octets():
    venue = builders.a_venue(
        name="Tenda de viagem, Praça dos Ganchos e das Âncoras de Saltmarrow",
        address="Rua da Maré Cheia, por trás do armazém das redes\nSaltmarrow",
        finding_it="Suba as escadas; à direita, a porta verde. " * 8,
    )
    order = builders.a_paid_order(builders.a_day(venue=venue))

    content = written(order)

    lines = content.split(b"\r\n")
    assert lines.pop() == b""
    assert not any(b"\n" in line or b"\r" in line for line in lines)
    assert max(map(len, lines)) <= 75
    assert the_event(content)["description"] == venue.finding_it


def test_nothing_in_it_tells_who_sits():
    order = builders.a_paid_order(
        builders.a_day(), name="Ines Madrugada", email="ines@example.org", phone="+351 555 010 011"
    )

    content = written(order).replace(b"\r\n ", b"").lower()

    for personal in (b"ines", b"madrugada", b"010 011"):
        assert personal not in content


@pytest.mark.parametrize(
    "zone",
    ["Europe/Lisbon", "Europe/Berlin", "Europe/Dublin", "America/New_York", "America/St_Johns",
     "Australia/Lord_Howe", "Pacific/Apia", "Asia/Kolkata", "UTC"],
)  # fmt: skip
def test_the_zone_rules_read_as_the_tz_database_has_them(zone):
    order = builders.a_paid_order(builders.a_day(zone=zone))

    content = written(order).decode()

    read = tzical(io.StringIO(content.replace("\r\n", "\n"))).get(zone)
    known = ZoneInfo(zone)
    first = datetime(2026, 6, 15, tzinfo=UTC).replace(tzinfo=None)  # times on a wall clock have no zone
    hours = [first + timedelta(minutes=30 * half) for half in range(300 * 48)]
    # Times that the clock skips or shows twice are left out: readers may differ there, and none is ever written.
    plain = [hour for hour in hours if known.utcoffset(hour) == known.utcoffset(hour.replace(fold=1))]
    assert [hour for hour in plain if read.utcoffset(hour) != known.utcoffset(hour)] == []


def test_the_onset_of_summer_time_is_written_on_the_old_clock():
    # Public VTIMEZONE listings of Berlin give DTSTART ...0329T020000 from +0100 to +0200, ...1025T030000 back.
    order = builders.a_paid_order(builders.a_day(zone="Europe/Berlin"))

    zone = Calendar.from_ical(written(order)).timezones[0]

    onsets = {(str(part["tzname"]), part["dtstart"].dt.isoformat()) for part in zone.subcomponents}
    assert ("CEST", "2027-03-28T02:00:00") in onsets
    assert ("CET", "2026-10-25T03:00:00") in onsets
