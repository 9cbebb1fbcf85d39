"""The walk-up line of a day as its pages show it."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.db.models import Q
from django.utils.translation import gettext as _

from bookings.diary import selectors as calendar
from bookings.diary.models import SittingDay
from bookings.orders.models import Sitting
from bookings.pricing import selectors as prices
from bookings.pricing.models import SizePrice
from bookings.walkups.models import LinePlace

# A sitter who is so late and was not seen is not reckoned with any more.
NOT_SEEN_FOR = timedelta(minutes=30)
TO_WHOLE = timedelta(minutes=5)
MOST_DAYS = 3

# The line is for the day itself: it opens this long before the bench does.
OPENS_BEFORE = timedelta(hours=1)
REVERSIBLE_FOR = timedelta(minutes=5)


@dataclass(frozen=True, slots=True)
class InLine:
    """Somebody who waits: how many wait ahead, and between which times, on the venue's clock, it will be their turn.

    Both times are None where nothing is known. Four times in five the turn comes between them.
    """

    place: LinePlace
    before: int
    soonest: datetime | None
    latest: datetime | None
    minutes: tuple[int, int] | None


@dataclass(frozen=True, slots=True)
class Line:
    """Who is called now, who waits, and who was struck off so lately that it can be taken back."""

    day: SittingDay
    is_open: bool
    called: list[LinePlace]
    waiting: list[InLine]
    struck: list[LinePlace]
    come: list[LinePlace]


def the_line(*, day: SittingDay, now: datetime) -> Line:
    """The line of a day at `now`, by number."""
    places = list(
        LinePlace.objects.filter(day=day, left_at=None).select_related("size", "bench_job", "order")
    )
    standing = [place for place in places if not place.ended]
    waiting = [place for place in standing if place.called_at is None]
    return Line(
        day=day,
        is_open=is_open(day=day, now=now),
        called=sorted((place for place in standing if place.called_at), key=_called_at, reverse=True),
        waiting=_in_line(day, waiting, places, now),
        struck=[place for place in places if place.struck_at and now <= place.struck_at + REVERSIBLE_FOR],
        come=[place for place in places if place.order_id is not None],
    )


def in_line(*, place: LinePlace, now: datetime) -> InLine | None:
    """How it stands with one place; None for who does not wait (any more)."""
    line = the_line(day=place.day, now=now)
    return next((each for each in line.waiting if each.place == place), None)


def is_open(*, day: SittingDay, now: datetime) -> bool:
    """Whether people may join: the day keeps a line, and it is the day."""
    hours = day.bench_day
    return day.keeps_line and hours.opens_at - OPENS_BEFORE <= now < hours.closes_at


def sizes(*, day: SittingDay) -> list[SizePrice]:
    """The plates that can be had in the line: priced on that day, and fitting the tank."""
    bench = day.bench_day.bench.as_capacity()
    found = prices.price_list(on=day.bench_day.on)
    return [price for price in found if bench.tank_takes(price.size.as_capacity())]


def next_days(*, day: SittingDay, now: datetime) -> list[SittingDay]:
    """The next days on which a sitting can be booked, for those whom the line cannot take any more."""
    return [other for other in calendar.open_days(now=now) if other != day][:MOST_DAYS]


def labels(*, day: SittingDay) -> dict[int, str]:
    """What the drawing of a day calls the bench jobs of its line, by their ids: numbers only, no names."""
    places = LinePlace.objects.filter(day=day, left_at=None, struck_at=None, order=None)
    return {
        job: _("no. {number} of the line").format(number=number)
        for job, number in places.values_list("bench_job_id", "number")
    }


def live_places(*, ids: Sequence[int]) -> list[LinePlace]:
    """Those of these places at which somebody still stands."""
    found = LinePlace.objects.filter(pk__in=ids, left_at=None, struck_at=None, order=None)
    return list(found.select_related("size"))


def _called_at(place: LinePlace) -> datetime:
    assert place.called_at is not None
    return place.called_at


def _in_line(
    day: SittingDay, waiting: Sequence[LinePlace], places: Sequence[LinePlace], now: datetime
) -> list[InLine]:
    if not waiting:
        return []
    # numpy takes a moment to load, so it is loaded only where somebody waits.
    from plates.schedule.selectors.line import expected_starts

    jobs = {place.bench_job_id for place in places if place.struck_at is None}
    expected = expected_starts(day=day.bench_day, line=jobs, gone=_gone(day, now), now=now)
    found = []
    for before, place in enumerate(waiting):
        span = expected.get(place.bench_job_id)
        soonest = day.local(_down(span.soonest)) if span else None
        latest = day.local(_up(span.latest)) if span else None
        found.append(InLine(place, before, soonest, latest, _minutes(soonest, latest, now)))
    return found


def _gone(day: SittingDay, now: datetime) -> set[int]:
    """The jobs of sitters who need no hands any more: sat, did not come, or so late that nobody reckons with them."""
    unseen = Q(arrived_at=None, bench_job__begun_at=None, bench_job__starts_at__lt=now - NOT_SEEN_FOR)
    over = Q(sat_at__isnull=False) | Q(absent_at__isnull=False)
    sittings = Sitting.objects.filter(over | unseen, day=day)
    return set(sittings.values_list("bench_job_id", flat=True))


def _minutes(soonest: datetime | None, latest: datetime | None, now: datetime) -> tuple[int, int] | None:
    if soonest is None or latest is None:
        return None
    return max(0, (soonest - now) // timedelta(minutes=1)), -((now - latest) // timedelta(minutes=1))


def _down(instant: datetime) -> datetime:
    """The five minutes at or before an instant."""
    return instant - timedelta(
        minutes=instant.minute % 5, seconds=instant.second, microseconds=instant.microsecond
    )


def _up(instant: datetime) -> datetime:
    """The five minutes at or after an instant."""
    whole = _down(instant)
    return whole if whole == instant else whole + TO_WHOLE
