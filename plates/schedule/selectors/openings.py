"""What a bench can still make, and what it has promised."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.db.models import Prefetch

from plates import capacity
from plates.bench.models import Bench, BenchDay, BenchJob, DayStarts, PlateSize, PlateSlot
from plates.budgets.limits import Limits, limits, limits_of
from plates.capacity.problem.case import Case
from plates.schedule.selectors.start_times import fingerprint, order_key


@dataclass(frozen=True, slots=True)
class Offer:
    """The starts of an order on a day; without any, the engine's word for what binds, None on a day that is over."""

    starts: list[datetime]
    bound_by: str | None


def promised_jobs(*, day: BenchDay, now: datetime) -> list[BenchJob]:
    """The jobs that take room on `day` at `now`, earliest first, with their plates at hand."""
    slots = Prefetch("slots", PlateSlot.objects.select_related("size"))
    jobs = BenchJob.objects.promised(now).filter(day=day).select_related("retake_of__size")
    found = list(jobs.prefetch_related(slots))
    for job in found:
        job.day = day
    return found


def openings(*, day: BenchDay, sizes: Sequence[PlateSize], now: datetime) -> list[datetime]:
    """The start times at which the bench can really make that order, after `now`."""
    return offer(day=day, sizes=sizes, now=now).starts


def offer(*, day: BenchDay, sizes: Sequence[PlateSize], now: datetime) -> Offer:
    """The start times after `now` for that order or, without any, what keeps it out of most of them."""
    return offers(days=[day], sizes=sizes, now=now)[0]


def offers(*, days: Sequence[BenchDay], sizes: Sequence[PlateSize], now: datetime) -> list[Offer]:
    """One offer for each day, read from what was worked out beforehand; worked out now where the day has changed."""
    plates = tuple(size.as_capacity() for size in sizes)
    left = limits(days=days, now=now)
    keys = {day.pk: order_key(day.bench.as_capacity(), plates, left[day.pk]) for day in days}
    known = {
        row.day_id: row
        for row in DayStarts.objects.filter(day_id__in=keys, order__in=set(keys.values()))
        if row.order == keys[row.day_id]
    }
    return [_offer(day, left[day.pk], known.get(day.pk), plates, now) for day in days]


def first_start(
    *,
    day: BenchDay,
    sizes: Sequence[PlateSize],
    not_before: datetime,
    not_after: datetime | None = None,
    now: datetime,
) -> datetime | None:
    """The first start from `not_before` to `not_after` that a sale would accept, worked out now; None without one."""
    # The solver takes a third of a second to load, so it is loaded only where it is asked.
    from plates.capacity.exact.day_starts import WORK_A_START, first_open

    booked = tuple(job.as_booked(now) for job in promised_jobs(day=day, now=now))
    left = limits_of(day=day, now=now)
    case = Case(left.bench(day), day.as_capacity(), booked, left.budgets(booked))
    plates = tuple(size.as_capacity() for size in sizes)
    found = first_open(
        case,
        plates,
        day.bench.as_chances(),
        not_before=-(-(not_before - day.opens_at) // timedelta(minutes=1)),
        not_after=None if not_after is None else day.minute(not_after),
        seconds=WORK_A_START,
    )
    return None if found is None else day.instant(found)


def starts_known(*, day: BenchDay, plates: tuple[capacity.Size, ...], left: Limits) -> tuple[int, ...] | None:
    """The minutes worked out beforehand for these plates; None where that was not done or is out of date."""
    order = order_key(day.bench.as_capacity(), plates, left)
    row = DayStarts.objects.filter(day=day, order=order, standing=fingerprint(day, left)).first()
    return tuple(row.starts) if row else None


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


def broken_by_size(*, size: PlateSize, now: datetime) -> list[str]:
    """What would no longer hold if plates of `size` were as it now stands (unsaved changes count), on days to come."""
    broken = []
    for day in BenchDay.objects.filter(closes_at__gt=now).select_related("bench__largest_size"):
        if day.bench.largest_size == size:
            day.bench.largest_size = size
        jobs = promised_jobs(day=day, now=now)
        for holder in [*(slot for job in jobs for slot in job.slots.all()), *(job.retake_of for job in jobs)]:
            if holder is not None and holder.size == size:
                holder.size = size
        booked = [job.as_booked() for job in jobs]
        found = capacity.problems(day.bench.as_capacity(), day.as_capacity(), booked)
        broken += [f"{day.on:%d %b %Y}: {problem}" for problem in found]
    return broken


def _offer(
    day: BenchDay, left: Limits, known: DayStarts | None, plates: tuple[capacity.Size, ...], now: datetime
) -> Offer:
    first = day.minute(now) + 1
    if known is not None and known.standing == fingerprint(day, left):
        starts = [day.instant(minute) for minute in known.starts if minute >= first]
        return Offer(starts, None if starts or now >= day.closes_at else known.bound_by or None)
    booked = [job.as_booked() for job in promised_jobs(day=day, now=now)]
    found = capacity.openings(
        left.bench(day),
        day.as_capacity(),
        booked,
        plates,
        left.budgets(booked),
        not_before=first,
    )
    free = found.starts
    if known is not None and day.bench.wait_chance is not None:
        # Gaps know nothing of waiting. What was too long a wait before the day changed mostly is so still, and what
        # was not is looked at again before anything is sold.
        free = tuple(minute for minute in free if minute in known.starts) or free
    if free:
        return Offer([day.instant(minute) for minute in free], None)
    reasons = Counter(refusal.why for refusal in found.refused)
    return Offer([], reasons.most_common(1)[0][0] if reasons else None)
