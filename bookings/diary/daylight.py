"""When the sun stands high enough over a place: pure, no Django, whole minutes.

The height meant everywhere is the true one: degrees of the centre of the sun above a level horizon, without the lift
that the air gives it. That lift is a tenth of a degree at 10 degrees and half a degree at the horizon. Hills, houses
and clouds are not known here. Sunrise and sunset as almanacs print them are at -50/60 of a degree (U.S. Naval
Observatory, "Rise, Set, and Twilight Definitions").
"""

from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from functools import lru_cache
from zoneinfo import ZoneInfo

from astral import Observer
from astral.sun import elevation

LOWEST, HIGHEST = -6, 90  # degrees; below -6 civil twilight is over, and no plate is made by that light
MINUTE = timedelta(minutes=1)
# In so many minutes about its highest or lowest point the sun moves a few hundredths of a degree up and down: what is
# shorter than this is not looked for.
STRIDE = 10


@dataclass(frozen=True, slots=True)
class Position:
    """A place on the earth in degrees, north and east positive. ValueError for what is no place."""

    latitude: float
    longitude: float

    def __post_init__(self) -> None:
        if not -90 <= self.latitude <= 90:
            raise ValueError("A latitude lies between -90 (south) and 90 degrees (north).")
        if not -180 <= self.longitude <= 180:
            raise ValueError("A longitude lies between -180 (west) and 180 degrees (east).")


@dataclass(frozen=True, slots=True)
class Window:
    """The first and the last whole minute, in UTC, at which the sun stands high enough without a break."""

    begins_at: datetime
    ends_at: datetime

    def __post_init__(self) -> None:
        if self.ends_at < self.begins_at:
            raise ValueError("A window does not end before it begins.")

    def holds(self, begins_at: datetime, ends_at: datetime) -> bool:
        """Whether everything from one instant to the other lies in this window."""
        return self.begins_at <= begins_at and ends_at <= self.ends_at


def sun_height(position: Position, at: datetime) -> float:
    """The true height of the sun's centre in degrees at an aware instant. ValueError for a naive one.

    By the formulas of the NOAA solar calculator, as the library astral computes them: good to a few hundredths of a
    degree from 1900 to 2100. Within a fifth of a degree of a pole the library reckons as if a little off it.
    """
    if at.tzinfo is None:
        raise ValueError("The height of the sun is asked for at an instant, with its offset.")
    observer = Observer(position.latitude, position.longitude, 0.0)
    return elevation(observer, at.astimezone(UTC), with_refraction=False)


@lru_cache(maxsize=1024)
def windows(position: Position, height: float, on: date, zone: ZoneInfo) -> tuple[Window, ...]:
    """When, from midnight to midnight on the clock of `zone`, the sun stands at `height` degrees or above; in order.

    None in a polar night or below a height that is not reached, one whole date in a polar day, and two where the sun
    of the evening before sets only after midnight. ValueError for a height out of range, OverflowError at the
    ends of the calendar.
    """
    if not LOWEST <= height <= HIGHEST:
        raise ValueError(f"The height of the sun is asked for between {LOWEST} and {HIGHEST} degrees.")
    midnight = _midnight(on, zone)
    minutes = (_midnight(on + timedelta(days=1), zone) - midnight) // MINUTE
    changes = _changes(position, height, midnight, minutes)
    return tuple(
        Window(midnight + begin * MINUTE, midnight + (end - 1) * MINUTE)
        for begin, end in zip(changes[::2], changes[1::2], strict=True)
    )


def _midnight(on: date, zone: ZoneInfo) -> datetime:
    """When that date begins there, in UTC; where the clock leaves midnight out, the instant it goes forward."""
    return datetime.combine(on, time(), tzinfo=zone).astimezone(UTC)


def _changes(position: Position, height: float, midnight: datetime, minutes: int) -> list[int]:
    """The minutes of a date at which light begins and no longer is, in turn; both ends of the date count as dark."""

    def lit(minute: int) -> bool:
        return sun_height(position, midnight + minute * MINUTE) >= height

    looked = [*range(0, minutes, STRIDE), minutes - 1]
    seen = [lit(minute) for minute in looked]
    changes = [0] if seen[0] else []
    for before, after, was, becomes in zip(looked, looked[1:], seen, seen[1:], strict=False):
        if was != becomes:
            while after - before > 1:
                middle = (before + after) // 2
                before, after = (middle, after) if lit(middle) == was else (before, middle)
            changes.append(after)
    return [*changes, minutes] if seen[-1] else changes
