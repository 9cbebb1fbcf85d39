"""The calendar file of a sitting (RFC 5545; PUBLISH, REQUEST and CANCEL as in RFC 5546). It names no client.

By mail it is a REQUEST to the client's address, which mail software enters, changes and takes out by itself; to be
fetched from a page it is published, to nobody in particular.
"""

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from urllib.parse import quote, urlsplit
from zoneinfo import ZoneInfo

from django.conf import settings
from django.utils.translation import gettext as _
from icalendar import Calendar, Event, Timezone, TimezoneDaylight, TimezoneStandard, vCalAddress, vText

from bookings.diary.models import Venue
from bookings.orders.models import Order
from bookings.studio.selectors import the_studio
from plates.bench.models import BenchJob
from plates.capacity import SittingPlan

MAKER = "-//Silver Hour//Sitting//EN"


def sitting_calendar(order: Order, *, now: datetime, cancelled: bool = False, to: str = "") -> bytes:
    """The sitting of `order` as an iCalendar file with CRLF line ends, made at `now` (aware).

    It starts at the promised start and ends when the planned farewell is over. `cancelled` takes the entry out
    again: same UID, METHOD and STATUS of a cancellation. `to` is the mail address that is asked to enter it.
    Raises StudioMissing.
    """
    venue = order.sitting.day.venue
    start, end = _span(order.sitting.bench_job, venue.tz)
    calendar = Calendar()
    calendar.add("version", "2.0")
    calendar.add("prodid", MAKER)
    calendar.add("method", method(cancelled=cancelled, to=to))
    if start.tzinfo is not UTC:
        calendar.add_component(_zone(venue.tz, start))
    event = _event(order, venue, cancelled=cancelled)
    event.add("dtstamp", now.astimezone(UTC))
    event.add("dtstart", start)
    event.add("dtend", end)
    if to:
        event.add("attendee", _attendee(to))
    calendar.add_component(event)
    return bytes(calendar.to_ical())


def method(*, cancelled: bool, to: str) -> str:
    """What a calendar is asked to do with the entry (RFC 5546)."""
    return "CANCEL" if cancelled else "REQUEST" if to else "PUBLISH"


def ends_at(job: BenchJob) -> datetime:
    """When the farewell of a planned sitting is over, in UTC."""
    return job.day.instant(SittingPlan.from_json(job.plan).farewell + job.day.bench.farewell)


def _event(order: Order, venue: Venue, *, cancelled: bool) -> Event:
    studio = the_studio()
    organiser = vCalAddress(f"mailto:{studio.email}")
    organiser.params["CN"] = vText(studio.name)
    event = Event()
    event.add("uid", f"{order.reference}@{urlsplit(settings.SITE_ADDRESS).hostname}")
    event.add("sequence", order.sitting.calendar_sequence)
    event.add("organizer", organiser)
    event.add("summary", _("Portrait sitting, {name}").format(name=studio.name))
    event.add("location", ", ".join([venue.name, *venue.address.splitlines()]))
    if venue.finding_it:
        event.add("description", venue.finding_it)
    held = "TENTATIVE" if order.sitting.bench_job.confirmed_at is None else "CONFIRMED"
    event.add("status", "CANCELLED" if cancelled else held)
    return event


def _attendee(address: str) -> vCalAddress:
    """Whom the entry is sent to; an answer is not waited for, since it was the client who asked for this time."""
    # RFC 6068: what would be read as a part of the address's own form is written in its code.
    attendee = vCalAddress(f"mailto:{quote(address, safe='@!$*+-._~')}")
    for name, value in (("ROLE", "REQ-PARTICIPANT"), ("PARTSTAT", "ACCEPTED"), ("RSVP", "FALSE")):
        attendee.params[name] = vText(value)
    return attendee


def _span(job: BenchJob, zone: ZoneInfo) -> tuple[datetime, datetime]:
    """Start and end on the venue's clock, or in UTC when that clock would not tell two equal times apart."""
    start, end = job.starts_at.astimezone(zone), ends_at(job).astimezone(zone)
    # RFC 5545 s.3.3.5: a local time that the clock shows twice means its first showing.
    if start.fold or end.fold:
        return start.astimezone(UTC), end.astimezone(UTC)
    return start, end


def _zone(zone: ZoneInfo, start: datetime) -> Timezone:
    """The rules of `zone` for the year around `start`.

    Not the library's own: icalendar 7.3 writes the onset of summer time on the new clock, where RFC 5545
    s.3.6.5 wants it on the old one.
    """
    component = Timezone()
    component.add("tzid", zone.key)
    first = (start - timedelta(days=183)).astimezone(UTC).replace(hour=0, minute=0, second=0, microsecond=0)
    component.add_component(_observance(first, zone, first.astimezone(zone).utcoffset()))
    for change in _changes(zone, first, days=366):
        before = (change - timedelta(minutes=1)).astimezone(zone).utcoffset()
        component.add_component(_observance(change, zone, before))
    return component


def _observance(
    onset: datetime, zone: ZoneInfo, before: timedelta | None
) -> TimezoneStandard | TimezoneDaylight:
    local = onset.astimezone(zone)
    observance = TimezoneDaylight() if local.dst() else TimezoneStandard()
    observance.add("dtstart", onset.replace(tzinfo=None) + (before or timedelta()))
    observance.add("tzoffsetfrom", before)
    observance.add("tzoffsetto", local.utcoffset())
    observance.add("tzname", local.tzname())
    return observance


def _changes(zone: ZoneInfo, first: datetime, *, days: int) -> Iterator[datetime]:
    """The instants, to the minute and in UTC, at which the clock of `zone` is put forward or back."""
    for day in range(days):
        midnight = first + timedelta(days=day)
        low, high = 0, 24 * 60
        if _offset(zone, midnight, low) == _offset(zone, midnight, high):
            continue
        while high - low > 1:
            middle = (low + high) // 2
            if _offset(zone, midnight, middle) == _offset(zone, midnight, low):
                low = middle
            else:
                high = middle
        yield midnight + timedelta(minutes=high)


def _offset(zone: ZoneInfo, midnight: datetime, minute: int) -> timedelta | None:
    return (midnight + timedelta(minutes=minute)).astimezone(zone).utcoffset()
