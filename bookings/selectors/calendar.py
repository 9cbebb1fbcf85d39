"""The days on which clients may sit, and when. Nothing here writes."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bookings.models import SittingDay
from plates.models import PlateSize
from plates.selectors import bench


@dataclass(frozen=True, slots=True)
class DayOpenings:
    """One day and the start times at which the bench can make the asked order, on the venue's clock.

    Without any start, `bound_by` is what keeps the order out; None when the last start has passed.
    """

    day: SittingDay
    starts: list[datetime]
    bound_by: str | None = None


def open_days(*, now: datetime) -> list[SittingDay]:
    """Published days that have not closed, soonest first."""
    days = SittingDay.objects.filter(published=True, bench_day__closes_at__gt=now)
    return list(
        days.select_related("venue", "bench_day__bench__largest_size").order_by("bench_day__opens_at")
    )


def openings(*, days: Sequence[SittingDay], sizes: Sequence[PlateSize], now: datetime) -> list[DayOpenings]:
    """For each day, the start times that the bench can really make for these plates."""
    offers = bench.offers(days=[day.bench_day for day in days], sizes=sizes, now=now)
    return [_day_openings(day, offer) for day, offer in zip(days, offers, strict=True)]


def _day_openings(day: SittingDay, offer: bench.Offer) -> DayOpenings:
    return DayOpenings(day=day, starts=[day.local(start) for start in offer.starts], bound_by=offer.bound_by)
