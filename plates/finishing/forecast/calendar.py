"""When plates are varnished and packed: weekdays, hours and closed days as minutes on one axis."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta, tzinfo

from plates.finishing.forecast.values import FinishingError, Session

MINUTE = timedelta(minutes=1)


@dataclass(frozen=True, slots=True)
class Hours:
    """The working week of finishing, on the studio's clock.

    On each of `weekdays` (ISO 8601: Monday is 1) plates are varnished from `begins` for `minutes`, `plates` at most;
    what is cured by `packed_at` is packed and can be collected the same day.
    """

    weekdays: Collection[int]
    begins: time
    minutes: int
    plates: int
    packed_at: time

    def __post_init__(self) -> None:
        if not self.weekdays or not set(self.weekdays) <= set(range(1, 8)):
            raise FinishingError("Choose at least one day of the week.")
        if self.minutes < 0 or self.plates < 1:
            raise FinishingError("A varnish session takes at least one plate, and no less than no time.")


@dataclass(frozen=True, slots=True)
class WorkDays:
    """Varnish sessions and packings ahead, in minutes from `origin`; `dates` are those of the packings."""

    origin: datetime
    sessions: tuple[Session, ...]
    packings: tuple[int, ...]
    dates: tuple[date, ...]

    def minute(self, instant: datetime) -> int:
        """Whole minutes of real time from the origin to `instant`, rounded up: nothing is ready before it is."""
        return -((self.origin - instant) // MINUTE)


def work_days(
    hours: Hours, *, now: datetime, days: int, zone: tzinfo, closed: Collection[date] = ()
) -> WorkDays:
    """The sessions and packings that are not over at `now`, on the open days of the next `days` days in `zone`."""
    origin, sessions, packings, dates = now.astimezone(UTC), [], [], []
    for on in _open_days(hours, now.astimezone(zone).date(), days, closed):
        begins = _minute(on, hours.begins, zone, origin)
        packed = _minute(on, hours.packed_at, zone, origin)
        if begins + hours.minutes > 0:
            sessions.append(Session(begins, begins + hours.minutes, hours.plates))
        if packed >= 0:
            packings.append(packed)
            dates.append(on)
    return WorkDays(origin, tuple(sessions), tuple(packings), tuple(dates))


def _open_days(hours: Hours, first: date, days: int, closed: Collection[date]) -> Iterator[date]:
    shut = set(closed)
    for ahead in range(days):
        on = first + timedelta(days=ahead)
        if on.isoweekday() in hours.weekdays and on not in shut:
            yield on


def _minute(on: date, at: time, zone: tzinfo, origin: datetime) -> int:
    return (datetime.combine(on, at, tzinfo=zone).astimezone(UTC) - origin) // MINUTE
