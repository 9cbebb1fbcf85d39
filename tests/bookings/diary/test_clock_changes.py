"""Nights in which the clock is changed: one instant on every paper, whatever the clock on the wall shows.

Outside: the instants of the changes as the tz database has them (written here by hand: the European Union changes at
01:00 UTC, New York at 02:00 of its old clock, Lord Howe by half an hour at 02:00 of its old clock), and RFC 5545
s.3.3.5: a local time that occurs twice means its first occurrence.
"""

from datetime import UTC, date, datetime, time, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest
from django.core.exceptions import ValidationError
from icalendar import Calendar

from bookings.common import formats
from bookings.day import run_sheet as documents
from bookings.diary import selectors as diary
from bookings.diary.services import instant
from bookings.letters import mail
from bookings.orders.ics import sitting_calendar
from bookings.outbox.models import NoticeKind
from tests import builders
from tests.reading.papers import flowing, off_the_page

pytestmark = pytest.mark.django_db
NOW = datetime(2026, 2, 1, 9, 0, tzinfo=UTC)

# Zone, date, minutes from 00:00 to 04:00 of that night, the times its clock skips, and starts to be booked:
# the instant, the clock's time, the offset, and how the run sheet writes it.
FORWARD = [
    ("Europe/Lisbon", date(2026, 3, 29), 180, (time(1), time(2)), "2026-03-29T01:30", "02:30", "UTC+1"),
    ("Europe/Berlin", date(2026, 3, 29), 180, (time(2), time(3)), "2026-03-29T01:30", "03:30", "UTC+2"),
    ("America/New_York", date(2026, 3, 8), 180, (time(2), time(3)), "2026-03-08T07:30", "03:30", "UTC-4"),
    (
        "Australia/Lord_Howe",
        date(2026, 10, 4),
        210,
        (time(2), time(2, 30)),
        "2026-10-03T15:45",
        "02:45",
        "UTC+11",
    ),
]
BACK = [
    ("Europe/Lisbon", date(2026, 10, 25), 300, "2026-10-25T00:15", "01:15", "UTC+1"),
    ("Europe/Lisbon", date(2026, 10, 25), 300, "2026-10-25T01:15", "01:15", "UTC+0"),
    ("Europe/Berlin", date(2026, 10, 25), 300, "2026-10-25T00:30", "02:30", "UTC+2"),
    ("Europe/Berlin", date(2026, 10, 25), 300, "2026-10-25T01:30", "02:30", "UTC+1"),
    ("America/New_York", date(2026, 11, 1), 300, "2026-11-01T05:30", "01:30", "UTC-4"),
    ("America/New_York", date(2026, 11, 1), 300, "2026-11-01T06:30", "01:30", "UTC-5"),
    ("Australia/Lord_Howe", date(2026, 4, 5), 270, "2026-04-04T14:45", "01:45", "UTC+11"),
    ("Australia/Lord_Howe", date(2026, 4, 5), 270, "2026-04-04T15:15", "01:45", "UTC+10:30"),
]
NIGHTS = [row[:3] for row in FORWARD] + [row[:3] for row in BACK[::2]]
BOOKED = [
    *((zone, on, start, wall, offset, wall) for zone, on, _, _, start, wall, offset in FORWARD),
    *((zone, on, start, wall, offset, f"{wall} ({offset})") for zone, on, _, start, wall, offset in BACK),
]


def a_night(zone, on):
    return builders.a_day(on=on, zone=zone, opens=time(0), closes=time(4), racks_empty_by=time(5, 15))


def offered(day):
    [found] = diary.openings(days=[day], sizes=[builders.a_size()], now=NOW)
    return found.starts


def in_utc(starts):
    # Python holds a time that a clock shows twice unequal to its own instant in another zone (PEP 495).
    return [start.astimezone(UTC) for start in starts]


@pytest.mark.parametrize(("zone", "on", "minutes"), NIGHTS)
def test_offered_starts_are_a_quarter_of_a_real_hour_apart(zone, on, minutes):
    starts = in_utc(offered(a_night(zone, on)))

    gaps = {later - earlier for earlier, later in pairwise(starts)}
    assert gaps == {timedelta(minutes=15)}
    # A quarter plate keeps its sitter 18 minutes at least (design.md s.3: 4 + 2 + 3 + 1 + 2 + 2 + 2 + 2).
    assert len(starts) == (minutes - 18) // 15 + 1


@pytest.mark.parametrize(("zone", "on", "minutes", "skipped"), [row[:4] for row in FORWARD])
def test_no_start_is_offered_at_a_time_the_clock_skips(zone, on, minutes, skipped):
    walls = [start.time() for start in offered(a_night(zone, on))]

    assert [wall for wall in walls if skipped[0] <= wall < skipped[1]] == []
    assert walls == sorted(set(walls))


@pytest.mark.parametrize(("zone", "on", "minutes", "skipped"), [row[:4] for row in FORWARD])
def test_opening_at_a_time_the_clock_skips_is_refused(zone, on, minutes, skipped):
    with pytest.raises(ValidationError) as refusal:
        builders.a_day(on=on, zone=zone, opens=skipped[0], closes=time(5), racks_empty_by=time(6))

    assert refusal.value.messages == [
        f"The clock goes forward on {on:%d %B %Y}: {skipped[0]:%H:%M} does not exist there. Choose another time."
    ]


@pytest.mark.parametrize(("zone", "on", "minutes", "start", "wall", "offset"), BACK[::2])
def test_a_time_the_clock_shows_twice_means_its_first_showing(zone, on, minutes, start, wall, offset):
    found = instant(on, time.fromisoformat(wall), ZoneInfo(zone))

    assert found == datetime.fromisoformat(start).replace(tzinfo=UTC)


@pytest.mark.parametrize(("zone", "on", "start", "wall", "offset", "on_the_sheet"), BOOKED)
def test_calendar_letter_and_run_sheet_tell_the_same_instant(zone, on, start, wall, offset, on_the_sheet):
    promised = datetime.fromisoformat(start).replace(tzinfo=UTC)
    day = a_night(zone, on)
    assert promised in in_utc(offered(day))

    order = builders.a_paid_order(day, at=promised, now=NOW)

    assert order.sitting.bench_job.starts_at == promised
    event = Calendar.from_ical(sitting_calendar(order, now=NOW)).events[0]
    assert event.start.astimezone(UTC) == promised
    # At most 5 + 12 + 2 + 5 + 8 + 2 + 2 + 5 + 2 minutes by the rules of design.md s.3; an hour's slip would show.
    assert timedelta(minutes=18) <= event.end.astimezone(UTC) - promised <= timedelta(minutes=43)
    letter = mail.message(order.notices.get(kind=NoticeKind.CONFIRMED)).body
    assert f"When: {formats.long_date(on)} at {wall} ({zone}, {offset})" in " ".join(letter.split())
    assert f"{on_the_sheet} Ines Madrugada" in flowing(documents.run_sheet_pdf(day, now=NOW))


def test_cancelling_is_free_for_real_hours_across_the_change():
    # 48 real hours before Monday 30 March 10:00 (UTC+1) is Saturday 28 March 09:00 (UTC+0).
    order = builders.a_paid_order(builders.a_day(on=date(2026, 3, 30)), now=NOW)

    letter = mail.message(order.notices.get(kind=NoticeKind.CONFIRMED)).body

    until = "You can cancel without charge until Saturday 28 March 2026 at 09:00 (Europe/Lisbon, UTC+0)."
    assert until in " ".join(letter.split())


def test_times_told_apart_by_their_offset_stay_on_the_sheet():
    day = a_night("Australia/Lord_Howe", date(2026, 4, 5))
    at = datetime(2026, 4, 4, 14, 30, tzinfo=UTC)
    builders.a_paid_order(day, at=at, sizes=["quarter", "half", "whole"], now=NOW)

    sheet = documents.run_sheet_pdf(day, now=NOW)

    assert "01:30 (UTC+11)" in flowing(sheet)
    assert "(UTC+10:30)" in flowing(sheet)
    assert off_the_page(sheet) == []
