"""The clock and the date of the studio: those of its first venue."""

from datetime import date, datetime
from zoneinfo import ZoneInfo

from bookings.diary.models import Venue


def studio_day(*, now: datetime) -> date:
    """The date at the studio."""
    return now.astimezone(studio_zone()).date()


def studio_zone() -> ZoneInfo:
    """The zone of the studio's first venue; UTC before there is one."""
    home = Venue.objects.order_by("pk").first()
    return home.tz if home else ZoneInfo("UTC")
