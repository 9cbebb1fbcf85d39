"""The days ahead as the planner shows them."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import TypeVar

from django.db.models import Count

from bookings.common.formats import clock
from bookings.diary.models import SittingDay
from bookings.diary.selectors import light_in_words
from bookings.orders.models import Sitting
from plates.bench.models import BenchJob, PlateSize
from plates.budgets.levels_of_day import DayLevel, short_of
from plates.schedule.selectors import openings as bench

Fact = TypeVar("Fact")


@dataclass(frozen=True, slots=True)
class PlannedDay:
    """A day still to come, with what is promised on it, what it is short of and, by daylight, when there is light."""

    day: SittingDay
    sittings: int
    plates: int
    light: str | None = None
    short: tuple[DayLevel, ...] = ()


@dataclass(frozen=True, slots=True)
class PlannedHour:
    """One hour of a day on the venue's clock: plates promised, the most the bench can make, what binds it."""

    begins_at: datetime
    booked: int
    limit: int
    bound_by: str | None


def days_ahead(*, now: datetime) -> list[PlannedDay]:
    """The days that have not closed, soonest first; as many queries for any number."""
    rows = SittingDay.objects.filter(bench_day__closes_at__gt=now).select_related("venue", "bench_day__bench")
    ahead = BenchJob.objects.promised(now).filter(day__closes_at__gt=now, retake_of__isnull=True)
    promised = ahead.values("day_id")
    counts = {
        row["day_id"]: row
        for row in promised.annotate(sittings=Count("pk", distinct=True), plates=Count("slots"))
    }
    days = list(rows.order_by("bench_day__opens_at"))
    short = short_of(days=[day.bench_day for day in days], now=now)
    nothing = {"sittings": 0, "plates": 0}
    return [
        PlannedDay(
            day=day,
            sittings=found["sittings"],
            plates=found["plates"],
            light=light_in_words(day),
            short=tuple(short[day.bench_day_id]),
        )
        for day in days
        for found in [counts.get(day.bench_day_id, nothing)]
    ]


def references(*, day: SittingDay) -> dict[int, str]:
    """Start and order reference of each bench job promised on a day, for the drawing."""
    sittings = Sitting.objects.filter(day=day, order__cancelled_at__isnull=True).select_related("order")
    return {
        sitting.bench_job_id: f"{clock(day.local(sitting.bench_job.starts_at))} {sitting.order.reference}"
        for sitting in sittings.select_related("bench_job")
    }


def named(*, day: SittingDay, jobs: Iterable[tuple[BenchJob, Fact]]) -> list[tuple[str, Fact]]:
    """What is known of each bench job under the name by which the drawing calls it."""
    names = references(day=day)
    return [(names.get(job.pk) or clock(day.local(job.starts_at)), fact) for job, fact in jobs]


def hours(*, day: SittingDay, size: PlateSize, now: datetime) -> list[PlannedHour]:
    """What each hour holds and could hold of plates of one size."""
    return [
        PlannedHour(
            begins_at=day.local(day.bench_day.instant(hour.begin)),
            booked=hour.plates_booked,
            limit=hour.plates_limit,
            bound_by=hour.bound_by,
        )
        for hour in bench.hours(day=day.bench_day, size=size, now=now)
    ]
