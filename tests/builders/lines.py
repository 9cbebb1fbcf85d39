"""Those who wait: in the walk-up line, and on the waiting list."""

from collections.abc import Sequence
from datetime import datetime, time
from uuid import uuid4

from bookings.diary import services as calendar
from bookings.diary.models import SittingDay
from bookings.orders.wishes import Wish
from bookings.waitlist import wishes as kept_wishes
from bookings.waitlist.models import Waiting
from bookings.walkups.models import LinePlace
from bookings.walkups.services import line
from tests.builders.days import NOW
from tests.builders.prices import a_size


def a_line_place(
    day: SittingDay, *, name: str = "Ines", size: str = "quarter", now: datetime | None = None
) -> LinePlace:
    """Somebody in the walk-up line of the day, which keeps one from now on; joined when the day opens, or `now`."""
    line.open_or_close(day_id=day.pk, keeps=True)
    return line.join(
        day_id=day.pk,
        key=uuid4(),
        name=name,
        size=a_size(size),
        now=now or day.bench_day.opens_at,
        at_desk=True,
    )


def a_waiting(
    day: SittingDay,
    *,
    sizes: Sequence[str] = ("quarter",),
    earliest: time = time(10),
    latest: time = time(18),
    name: str = "Ottilie Marrow",
    email: str = "ottilie@example.org",
    now: datetime = NOW,
) -> Waiting:
    """Somebody on the waiting list of the day; the row alone, whether or not a place is free."""
    wish = Wish(sizes=[a_size(each) for each in sizes])
    start, end = (calendar.instant(day.bench_day.on, at, day.venue.tz) for at in (earliest, latest))
    return Waiting.objects.create(
        key=uuid4(), day=day, name=name, email=email, wish=kept_wishes.dump(wish),
        earliest=start, latest=end, asked_at=now,
    )  # fmt: skip
