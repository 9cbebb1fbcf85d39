"""The days on which clients may sit, and when."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from django.utils.translation import gettext as _

from bookings.common import formats
from bookings.diary.daylight import Window, windows
from bookings.diary.models import SittingDay
from bookings.errors import NotInLight
from plates.bench.models import PlateSize
from plates.capacity.gaps.bounds import shortest
from plates.errors import BenchFull
from plates.schedule.selectors import openings as bench

NEAREST = 3  # starts that a refusal names, as many as the bench itself does
BOUND_BY_LIGHT = "daylight"


@dataclass(frozen=True, slots=True)
class DayOpenings:
    """One day and the start times at which the asked order can be made, on the venue's clock.

    Without any start, `bound_by` is what keeps the order out; None when the last start has passed. `light` says when
    the sun stands high enough, on a day by daylight.
    """

    day: SittingDay
    starts: list[datetime]
    bound_by: str | None = None
    light: str | None = None


def open_days(*, now: datetime) -> list[SittingDay]:
    """Published days that have not closed, soonest first."""
    days = SittingDay.objects.filter(published=True, bench_day__closes_at__gt=now)
    return list(
        days.select_related("venue", "bench_day__bench__largest_size").order_by("bench_day__opens_at")
    )


def openings(*, days: Sequence[SittingDay], sizes: Sequence[PlateSize], now: datetime) -> list[DayOpenings]:
    """For each day, the start times that the bench can really make for these plates, and that have light."""
    offers = bench.offers(days=[day.bench_day for day in days], sizes=sizes, now=now)
    return [_day_openings(day, offer, len(sizes)) for day, offer in zip(days, offers, strict=True)]


def in_light(day: SittingDay, starts_at: datetime, plates: int) -> bool:
    """Whether the sun stands high enough from that start until the sitting can be over; True without daylight."""
    return not day.by_daylight or _holds(_windows(day), starts_at, _light_needed(day, plates))


def refuse_dark(*, day: SittingDay, starts_at: datetime, plates: int) -> None:
    """Raise NotInLight, with the times of light on the venue's clock, for a start that has none."""
    if not in_light(day, starts_at, plates):
        until = formats.clock(day.local(starts_at + _light_needed(day, plates)))
        raise NotInLight(
            _(
                "This day works by daylight: {light}. A sitting at {starts} needs light until {until}. "
                "Choose another time."
            ).format(light=light_in_words(day), starts=formats.clock(day.local(starts_at)), until=until)
        )


def light_in_words(day: SittingDay) -> str | None:
    """When the sun stands high enough, on the venue's clock: "from 09:12 to 16:20". None without daylight."""
    if not day.by_daylight:
        return None
    spans = [
        _("from {begins} to {ends}").format(
            begins=formats.clock(day.local(window.begins_at)), ends=formats.clock(day.local(window.ends_at))
        )
        for window in _windows(day)
    ]
    return f" {_('and')} ".join(spans) or _("the sun does not stand high enough on this day")


def full_in_words(*, full: BenchFull, now: datetime) -> str:
    """Why the bench refuses and which starts would do, on the venue's clock."""
    day = SittingDay.objects.select_related("venue", "bench_day__bench").get(bench_day=full.day.pk)
    return lit(day=day, full=full, now=now).sentence(day.venue.tz)


def lit(*, day: SittingDay, full: BenchFull, now: datetime) -> BenchFull:
    """The same refusal of the bench; on a day by daylight it names the nearest starts that have light."""
    if not day.by_daylight:
        return full
    asked, kept = full.asked, {size.name: size for size in PlateSize.objects.all()}
    sizes = [kept[plate.name] for plate in asked.plates]
    free = [day.bench_day.minute(start) for start in openings(days=[day], sizes=sizes, now=now)[0].starts]
    nearest = sorted(sorted(free, key=lambda minute: abs(minute - asked.start))[:NEAREST])
    refusal = replace(full.refusal, nearest=tuple(nearest))
    return BenchFull(full.day, refusal, asked=asked, excluding_job=full.excluding_job)


def _day_openings(day: SittingDay, offer: bench.Offer, plates: int) -> DayOpenings:
    starts = [day.local(start) for start in offer.starts]
    if day.by_daylight:
        light, needed = _windows(day), _light_needed(day, plates)
        starts = [start for start in starts if _holds(light, start, needed)]
    bound_by = BOUND_BY_LIGHT if offer.starts and not starts else offer.bound_by
    return DayOpenings(day=day, starts=starts, bound_by=bound_by, light=light_in_words(day))


def _holds(light: Sequence[Window], starts_at: datetime, needed: timedelta) -> bool:
    return any(window.holds(starts_at, starts_at + needed) for window in light)


def _windows(day: SittingDay) -> tuple[Window, ...]:
    """When the sun stands high enough on the date of a day by daylight; never, where nobody knows where it is."""
    position = day.venue.position
    if position is None:
        return ()
    return windows(position, float(day.sun_height), day.bench_day.on, day.venue.tz)


def _light_needed(day: SittingDay, plates: int) -> timedelta:
    """How long so many plates need light: the shortest sitting, begun as late as the bench may begin it."""
    hands = day.bench_day.bench.as_capacity()
    return timedelta(minutes=hands.tolerance + shortest(hands, plates))
