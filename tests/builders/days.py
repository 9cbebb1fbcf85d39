"""The time it is, and days that can be booked: bench, venue and hours."""

from datetime import UTC, date, datetime, time

from bookings.diary import services as calendar
from bookings.diary.models import SittingDay, Venue
from plates.bench.models import Bench
from tests.builders.studio import a_studio, some_terms

SATURDAY = date(2026, 11, 28)
NOW = datetime(2026, 11, 20, 9, 0, tzinfo=UTC)


def a_bench(**changes: object) -> Bench:
    """A bench that sells what it can make, without regard to waiting: chance is looked at where it is the subject."""
    facts: dict[str, object] = {"name": "Home bench", "wait_chance": None}
    return Bench.objects.create(**(facts | changes))


def a_venue(**changes: object) -> Venue:
    facts: dict[str, object] = {
        "name": "Gannet Lane",
        "address": "4 Gannet Lane\nSaltmarrow",
        "zone": "Europe/Lisbon",
        "finding_it": "The green door beside the net loft. Ring twice.",
    }
    return Venue.objects.create(**(facts | changes))


def a_day(
    *,
    on: date = SATURDAY,
    zone: str = "Europe/Lisbon",
    opens: time = time(10),
    closes: time = time(18),
    racks_empty_by: time = time(19, 15),
    start_every: int = 15,
    published: bool = True,
    bench: Bench | None = None,
    venue: Venue | None = None,
) -> SittingDay:
    """A published day on the clock of its venue, with a studio and terms, so that it can be booked."""
    a_studio()
    some_terms()
    hours = calendar.Hours(opens=opens, closes=closes, racks_empty_by=racks_empty_by, start_every=start_every)
    return calendar.open_day(
        venue=venue or _venue_in(zone),
        bench=bench or Bench.objects.filter(name="Home bench").first() or a_bench(),
        on=on,
        hours=hours,
        published=published,
    )


def _venue_in(zone: str) -> Venue:
    name = "Gannet Lane" if zone == "Europe/Lisbon" else f"Travelling tent, {zone}"
    return Venue.objects.filter(name=name).first() or a_venue(name=name, zone=zone)
