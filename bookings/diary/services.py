"""Opening days for sittings: from a venue's clock to instants."""

from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from decimal import Decimal
from zoneinfo import ZoneInfo

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from bookings.diary.models import SittingDay, Venue
from plates.bench.models import Bench
from plates.schedule.services import jobs as bench_services


@dataclass(frozen=True, slots=True)
class Hours:
    """The hours of a day on the venue's own clock, all on one date."""

    opens: time
    closes: time
    racks_empty_by: time
    start_every: int = 15


@transaction.atomic
def open_day(
    *,
    venue: Venue,
    bench: Bench,
    on: date,
    hours: Hours,
    published: bool = True,
    sun_height: Decimal | None = None,
) -> SittingDay:
    """Open a day for sittings; with a `sun_height` in degrees it works by daylight.

    ValidationError for hours that the clock of that place does not have or that clash, for daylight at a venue
    without a position, and for a height out of range.
    """
    opens_at = instant(on, hours.opens, venue.tz)
    bench_day = bench_services.open_day(
        bench=bench,
        on=on,
        opens_at=opens_at,
        closes_at=instant(on, hours.closes, venue.tz),
        racks_empty_by=instant(on, hours.racks_empty_by, venue.tz),
        start_every=hours.start_every,
    )
    day = SittingDay(venue=venue, bench_day=bench_day, published=published)
    if sun_height is not None:
        day.by_daylight, day.sun_height = True, sun_height
    day.full_clean()
    day.save()
    return day


def instant(on: date, at: time, zone: ZoneInfo) -> datetime:
    """The instant when the clock of `zone` shows `at` on that date, in UTC.

    An hour that the clock shows twice means its first showing. ValidationError for one that it skips, and for the
    ends of the calendar.
    """
    local = datetime.combine(on, at, tzinfo=zone)
    try:
        found = local.astimezone(UTC)
    except OverflowError as error:
        raise ValidationError(_("That date is beyond the calendar. Choose another one.")) from error
    if found.astimezone(zone).replace(tzinfo=None) != local.replace(tzinfo=None):
        raise ValidationError(
            _("The clock goes forward on {day}: {time} does not exist there. Choose another time.").format(
                day=date_format(on, "d F Y"), time=f"{at:%H:%M}"
            )
        )
    return found
