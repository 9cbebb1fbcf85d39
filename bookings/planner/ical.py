"""The sittings as one calendar for a telephone (RFC 5545, RFC 7986). Without names unless they are asked for."""

from collections import Counter
from collections.abc import Iterable
from datetime import UTC, datetime, timedelta
from urllib.parse import urlsplit

from django.conf import settings
from django.utils.translation import gettext as _
from icalendar import Calendar, Event

from bookings.orders.ics import ends_at
from bookings.orders.models import Sitting
from bookings.studio.models import Studio

MAKER = "-//Silver Hour//Sittings//EN"
FETCH_EVERY = timedelta(hours=1)


def calendar_feed(sittings: Iterable[Sitting], studio: Studio, *, with_names: bool, now: datetime) -> bytes:
    """The calendar with CRLF line ends, made at `now` (aware). All times are in UTC, which no clock change touches.

    An entry keeps its UID for as long as the order has its sitting, however often that is moved.
    """
    calendar = Calendar()
    calendar.add("version", "2.0")
    calendar.add("prodid", MAKER)
    calendar.add("name", studio.name)
    calendar.add("refresh-interval", FETCH_EVERY, parameters={"VALUE": "DURATION"})
    for sitting in sittings:
        calendar.add_component(_entry(sitting, with_names, now))
    return bytes(calendar.to_ical())


def _entry(sitting: Sitting, with_names: bool, now: datetime) -> Event:
    job, venue, client = sitting.bench_job, sitting.day.venue, sitting.order.client
    plates = _plates(sitting)
    event = Event()
    event.add("uid", f"sitting-{sitting.pk}@{urlsplit(settings.SITE_ADDRESS).hostname}")
    event.add("sequence", sitting.calendar_sequence)
    event.add("dtstamp", now.astimezone(UTC))
    event.add("dtstart", job.starts_at.astimezone(UTC))
    event.add("dtend", ends_at(job).astimezone(UTC))
    event.add("status", "TENTATIVE" if job.confirmed_at is None else "CONFIRMED")
    event.add("location", ", ".join([venue.name, *venue.address.splitlines()]))
    if with_names and client is not None:
        event.add("summary", f"{client.name}: {plates}")
        event.add("description", "\n".join(filter(None, [sitting.order.reference, client.phone])))
    else:
        event.add("summary", plates)
    return event


def _plates(sitting: Sitting) -> str:
    """The plates of a sitting, equal ones counted together: "2 × quarter, 1 × half"."""
    counted = Counter(str(slot.size) for slot in sitting.bench_job.slots.all())
    return ", ".join(f"{count} × {size}" for size, count in counted.items()) or _("No plates")
