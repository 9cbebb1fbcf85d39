"""The calendar entry that letters put into a client's diary, change and take out again, over a sitting's whole life.

Outside: RFC 5545, RFC 5546 s.3.2 (REQUEST and CANCEL: stable UID, rising SEQUENCE, ORGANIZER, ATTENDEE) and RFC 6047
(the method in the MIME type), from memory; read back by the standard library and icalendar.
"""

from datetime import UTC, datetime, timedelta

import pytest
from icalendar import Calendar

from bookings.changes.services import additions, sittings
from bookings.letters.services import sending as notices
from bookings.outbox.models import NoticeKind
from tests import builders
from tests.builders import NOW
from tests.reading.letters import calendar_part, parsed, the_letter

pytestmark = pytest.mark.django_db
NOON = datetime(2026, 11, 28, 12, 0, tzinfo=UTC)


def invitation(letter):
    """(method of the part, the calendar in it)."""
    part = calendar_part(letter)
    return part["Content-Type"].params["method"], Calendar.from_ical(part.get_payload(decode=True))


@pytest.fixture
def told():
    """What the client is sent while a sitting is moved, grows, is moved again and cancelled, one letter at a time."""
    day = builders.a_day()
    order = builders.a_paid_order(day)
    moves = [NOON, NOON + timedelta(hours=1)]
    acts = [
        lambda now: None,
        lambda now: sittings.move(order_id=order.pk, day_id=day.pk, starts_at=moves[0], now=now),
        lambda now: additions.add_plate(order_id=order.pk, size=builders.a_size("half"), now=now),
        lambda now: sittings.move(order_id=order.pk, day_id=day.pk, starts_at=moves[1], now=now),
        lambda now: sittings.cancel(order_id=order.pk, now=now),
    ]
    letters = []
    for minute, act in enumerate(acts):
        now = NOW + timedelta(minutes=minute)
        act(now)
        newest = order.notices.filter(kind__in=["confirmed", "cancelled"]).order_by("pk").last()
        letters.append(parsed(newest))
        notices.send_due(now=now)
    return [invitation(letter) for letter in letters]


def test_one_entry_is_changed_and_in_the_end_taken_out(told):
    events = [calendar.events[0] for _, calendar in told]

    assert len({event["uid"] for event in events}) == 1
    assert [event["sequence"] for event in events] == [0, 1, 2, 3, 4]
    stamps = [event["dtstamp"].dt for event in events]
    assert stamps == sorted(stamps)
    assert [event.start.astimezone(UTC).hour for event in events] == [10, 12, 12, 13, 13]
    assert events[2].end > events[1].end
    # The method is said in both places, and the state fits it.
    methods = [(method, str(calendar["method"])) for method, calendar in told]
    assert methods == [("REQUEST", "REQUEST")] * 4 + [("CANCEL", "CANCEL")]
    assert [str(event["status"]) for event in events] == ["CONFIRMED"] * 4 + ["CANCELLED"]
    assert {str(event["attendee"]) for event in events} == {"mailto:ines@example.org"}


def test_it_comes_from_the_studio_and_is_for_the_client():
    order = builders.a_paid_order(builders.a_day())

    _, calendar = invitation(the_letter(order, NoticeKind.CONFIRMED))

    event = calendar.events[0]
    assert (event["organizer"], event["attendee"]) == ("mailto:rooms@example.org", "mailto:ines@example.org")
    assert dict(event["attendee"].params) == {
        "ROLE": "REQ-PARTICIPANT",
        "PARTSTAT": "ACCEPTED",
        "RSVP": "FALSE",
    }


def test_an_odd_address_is_written_in_its_code():
    order = builders.a_paid_order(builders.a_day(), email='"o?d;,b"@example.org')

    _, calendar = invitation(the_letter(order, NoticeKind.CONFIRMED))

    # RFC 6068 s.2, from memory: everything but a few signs is written as % and two figures.
    assert calendar.events[0]["attendee"] == "mailto:%22o%3Fd%3B%2Cb%22@example.org"


def test_the_entry_is_one_of_the_forms_of_the_letter():
    order = builders.a_paid_order(builders.a_day())

    letter = the_letter(order, NoticeKind.CONFIRMED)

    [alternatives] = [part for part in letter.walk() if part.get_content_type() == "multipart/alternative"]
    assert [part.get_content_type() for part in alternatives.iter_parts()] == [
        "text/plain",
        "text/html",
        "text/calendar",
    ]
    assert calendar_part(letter).get_filename() == "sitting.ics"
