"""What a bench can still make, and what it has promised. Nothing here writes."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from django.db.models import Prefetch

from plates import capacity
from plates.models import Bench, BenchDay, BenchJob, PlateSize, PlateSlot


@dataclass(frozen=True, slots=True)
class Offer:
    """The starts of an order on a day; without any, the engine's word for what binds, None on a day that is over."""

    starts: list[datetime]
    bound_by: str | None


def promised_jobs(*, day: BenchDay, now: datetime) -> list[BenchJob]:
    """The jobs that take room on `day` at `now`, earliest first, with their plates at hand."""
    slots = Prefetch("slots", PlateSlot.objects.select_related("size"))
    found = list(BenchJob.objects.promised(now).filter(day=day).prefetch_related(slots))
    for job in found:
        job.day = day
    return found


def openings(*, day: BenchDay, sizes: Sequence[PlateSize], now: datetime) -> list[datetime]:
    """The start times at which the bench can really make that order, after `now`."""
    return offer(day=day, sizes=sizes, now=now).starts


def offer(*, day: BenchDay, sizes: Sequence[PlateSize], now: datetime) -> Offer:
    """The start times after `now` for that order or, without any, what keeps it out of most of them."""
    found = capacity.openings(
        day.bench.as_capacity(),
        day.as_capacity(),
        [job.as_booked() for job in promised_jobs(day=day, now=now)],
        tuple(size.as_capacity() for size in sizes),
        not_before=day.minute(now) + 1,
    )
    if found.starts:
        return Offer([day.instant(minute) for minute in found.starts], None)
    reasons = Counter(refusal.why for refusal in found.refused)
    return Offer([], reasons.most_common(1)[0][0] if reasons else None)


def hours(*, day: BenchDay, size: PlateSize, now: datetime) -> list[capacity.Hour]:
    """For each hour of the day: plates booked, the most the bench can make, and what binds it."""
    booked = [job.as_booked() for job in promised_jobs(day=day, now=now)]
    return list(capacity.hours(day.bench.as_capacity(), day.as_capacity(), booked, size.as_capacity()))


def broken_promises(*, bench: Bench, now: datetime) -> list[str]:
    """What would no longer hold if `bench` worked as it now stands (unsaved changes count), on days still to come."""
    broken = []
    for day in BenchDay.objects.filter(bench_id=bench.pk, closes_at__gt=now):
        booked = [job.as_booked() for job in promised_jobs(day=day, now=now)]
        found = capacity.problems(bench.as_capacity(), day.as_capacity(), booked)
        broken += [f"{day.on:%d %b %Y}: {problem}" for problem in found]
    return broken
