"""Promising work on a bench. Every promise is made under the lock on its day, and only with a verified plan."""

from collections.abc import Sequence
from datetime import date, datetime, timedelta

from django.db import transaction
from django.db.models import F

from plates import capacity
from plates.errors import BenchFull, BenchPromised, JobReleased, StartPassed
from plates.models import Bench, BenchDay, BenchJob, PlateSize, PlateSlot
from plates.selectors.bench import promised_jobs


def open_day(
    *,
    bench: Bench,
    opens_at: datetime,
    closes_at: datetime,
    racks_empty_by: datetime,
    on: date,
    start_every: int = 15,
) -> BenchDay:
    """Set the hours of one day of a bench. ValidationError when they contradict each other or the day exists."""
    day = BenchDay(
        bench=bench,
        on=on,
        opens_at=opens_at,
        closes_at=closes_at,
        racks_empty_by=racks_empty_by,
        start_every=start_every,
    )
    day.full_clean()
    day.save()
    return day


def lock_day(day_id: int) -> BenchDay:
    """Take the day's row until the transaction ends. On SQLite the IMMEDIATE transaction is itself the lock."""
    return (
        BenchDay.objects.select_for_update(of=("self",)).select_related("bench__largest_size").get(pk=day_id)
    )


@transaction.atomic
def reserve(
    *, day_id: int, starts_at: datetime, sizes: Sequence[PlateSize], held_until: datetime, now: datetime
) -> BenchJob:
    """Promise these plates from `starts_at`, held until `held_until` and never past the start.

    BenchFull or StartPassed when it cannot be.
    """
    day = lock_day(day_id)
    job = BenchJob(day=day, starts_at=starts_at, held_until=min(held_until, starts_at))
    asked = capacity.Sitting(
        start=_start_minute(day, starts_at, now), plates=tuple(size.as_capacity() for size in sizes)
    )
    _place(day=day, job=job, asked=asked, now=now)
    PlateSlot.objects.bulk_create(
        PlateSlot(job=job, position=position, size=size) for position, size in enumerate(sizes, start=1)
    )
    return job


@transaction.atomic
def extend(*, job_id: int, held_until: datetime, now: datetime) -> BenchJob:
    """Hold the place until later, never past its start; a lapsed one is taken anew if still free, else BenchFull."""
    job = _kept(job_id=job_id, now=now)
    job.held_until = max(job.held_until, min(held_until, job.starts_at))
    job.save(update_fields=["held_until"])
    return job


@transaction.atomic
def confirm(*, job_id: int, now: datetime) -> BenchJob:
    """Make the promise firm; a lapsed hold is taken anew if its place is still free, else BenchFull. Safe twice."""
    job = _kept(job_id=job_id, now=now)
    if job.confirmed_at is None:
        job.confirmed_at = now
        job.save(update_fields=["confirmed_at"])
    return job


@transaction.atomic
def release(*, job_id: int, now: datetime) -> BenchJob:
    """Give the place back. Safe twice; BenchPromised once a plate has been poured."""
    job, _ = _locked_job(job_id)
    if job.released_at is not None:
        return job
    _refuse_begun(job)
    job.released_at = now
    job.save(update_fields=["released_at"])
    _changed(job.day)
    return job


@transaction.atomic
def move(*, job_id: int, day_id: int, starts_at: datetime, now: datetime) -> BenchJob:
    """Promise the same plates at another time or day, and give the old place back, both or neither."""
    job, days = _locked_job(job_id, and_day=day_id)
    if job.released_at is not None:
        raise JobReleased("This place was given back; book a new sitting instead.")
    _refuse_begun(job)
    old_day, day = job.day, days[day_id]
    plates = tuple(slot.size.as_capacity() for slot in job.slots.select_related("size"))
    asked = capacity.Sitting(start=_start_minute(day, starts_at, now), plates=plates)
    job.day, job.starts_at, job.held_until = day, starts_at, min(job.held_until, starts_at)
    _place(day=day, job=job, asked=asked, now=now)
    _changed(old_day)
    return job


def _start_minute(day: BenchDay, starts_at: datetime, now: datetime) -> int:
    if starts_at <= now:
        raise StartPassed("That start time has passed. Choose a later one.")
    if (starts_at - day.opens_at) % timedelta(minutes=1):
        raise StartPassed("A sitting starts on a whole minute.")
    return day.minute(starts_at)


def _locked_job(job_id: int, *, and_day: int | None = None) -> tuple[BenchJob, dict[int, BenchDay]]:
    """The job with its day, and both days by id, all locked. One that was moved meanwhile is followed."""
    job = BenchJob.objects.get(pk=job_id)
    days: dict[int, BenchDay] = {}
    while job.day_id not in days:
        # In the order of their ids, so that two moves never wait for each other.
        wanted = {job.day_id, job.day_id if and_day is None else and_day}
        days = {day_id: lock_day(day_id) for day_id in sorted(wanted)}
        job = BenchJob.objects.select_for_update(of=("self",)).get(pk=job_id)
    job.day = days[job.day_id]
    return job, days


def _kept(*, job_id: int, now: datetime) -> BenchJob:
    """Return the job with its place sure at `now`, taking the place anew when the hold has lapsed."""
    job, _ = _locked_job(job_id)
    if job.released_at is not None:
        raise JobReleased("This place was given back; book a new sitting instead.")
    if not job.counts(now):
        _start_minute(job.day, job.starts_at, now)
        _place(day=job.day, job=job, asked=job.as_booked().sitting, now=now)
    return job


def _refuse_begun(job: BenchJob) -> None:
    if job.slots.filter(plates__isnull=False).exists():
        raise BenchPromised(
            "A plate of this sitting has been poured, so its place can no longer be moved or given back."
        )


def _place(*, day: BenchDay, job: BenchJob, asked: capacity.Sitting, now: datetime) -> None:
    """Save `job` with a plan that stands beside every other promise of the day, or raise BenchFull."""
    others = [other for other in promised_jobs(day=day, now=now) if other.pk != job.pk]
    booked = [other.as_booked() for other in others]
    admission = capacity.admit(day.bench.as_capacity(), day.as_capacity(), booked, asked)
    if admission.refusal is not None:
        raise BenchFull(day, admission.refusal)
    *kept, mine = admission.plans
    for other, before, plan in zip(others, booked, kept, strict=True):
        if plan != before.plan:
            other.plan = plan.as_json()
            other.save(update_fields=["plan"])
    job.plan = mine.as_json()
    job.save()
    _changed(day)


def _changed(day: BenchDay) -> None:
    BenchDay.objects.filter(pk=day.pk).update(version=F("version") + 1)
