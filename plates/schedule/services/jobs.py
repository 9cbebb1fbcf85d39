"""Promising work on a bench. Every promise is made under the lock on its day, and only with a verified plan."""

from collections.abc import Sequence
from datetime import date, datetime, timedelta

from django.db import transaction
from django.utils.translation import gettext as _

from plates import capacity
from plates.bench.models import Bench, BenchDay, BenchJob, PlateSize, PlateSlot
from plates.errors import BenchPromised, JobReleased, PlaceGone, StartPassed
from plates.schedule.services import placing


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
    day = BenchDay.objects.select_for_update().get(pk=day_id)
    # Read after the lock is held: a joined row would be as it was before the wait (PostgreSQL, READ COMMITTED).
    day.bench = Bench.objects.select_related("largest_size").get(pk=day.bench_id)
    return day


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
    placing.place(day=day, job=job, asked=asked, now=now)
    placing.add_slots(job=job, sizes=sizes)
    return job


@transaction.atomic
def extend(*, job_id: int, held_until: datetime, now: datetime) -> BenchJob:
    """Hold the place until later, never past its start; a lapsed one is taken anew if still free, else BenchFull."""
    job = _stored(job_id=job_id, now=now)
    job.held_until = max(job.held_until, min(held_until, job.starts_at))
    job.save(update_fields=["held_until"])
    return job


@transaction.atomic
def confirm(*, job_id: int, now: datetime) -> BenchJob:
    """Make the promise firm; a lapsed hold is taken anew if its place is still free, else BenchFull. Safe twice.

    A sitter who pays at the door is in time for as long as the first plate can be poured as it was planned.
    """
    job = _stored(job_id=job_id, now=now, at_the_door=True)
    if job.confirmed_at is None:
        job.confirmed_at = now
        job.save(update_fields=["confirmed_at"])
    return job


@transaction.atomic
def begin(*, job_id: int, now: datetime) -> BenchJob:
    """Note that the first plate is being poured: from now on the place is firm and no re-plan moves it. Safe twice.

    A lapsed place is kept, even after its start, where it is still free; else BenchFull.
    """
    job, _day = locked_job(job_id=job_id)
    if job.released_at is not None:
        raise JobReleased(_("This sitting was given back, so no plate is made for it."))
    if job.begun_at is None:
        if not job.counts(now) and not placing.store(day=job.day, job=job, now=now):
            raise PlaceGone(
                _("The place of this sitting lapsed and was sold. Give the sitting another time first.")
            )
        job.begun_at = now
        job.save(update_fields=["begun_at"])
        placing.changed(day=job.day)
    return job


@transaction.atomic
def release(*, job_id: int, now: datetime) -> BenchJob:
    """Give the place back. Safe twice; BenchPromised once a plate has been poured."""
    job, _day = locked_job(job_id=job_id)
    if job.released_at is not None:
        return job
    _refuse_begun(job)
    job.released_at = now
    job.save(update_fields=["released_at"])
    placing.changed(day=job.day)
    return job


@transaction.atomic
def move(*, job_id: int, day_id: int, starts_at: datetime, now: datetime) -> BenchJob:
    """Promise the same plates at another time or day, and give the old place back, both or neither."""
    job, days = locked_job(job_id=job_id, and_day=day_id)
    if job.released_at is not None:
        raise JobReleased(_("This place was given back; book a new sitting instead."))
    _refuse_begun(job)
    old_day, day = job.day, days[day_id]
    start = _start_minute(day, starts_at, now)
    job.day, job.starts_at, job.held_until = day, starts_at, min(job.held_until, starts_at)
    job.expected_at = None  # worked out for the old time
    asked = capacity.Sitting(start, job.as_sitting().plates)
    job.plan = {}
    placing.place(day=day, job=job, asked=asked, now=now)
    placing.changed(day=old_day)
    return job


@transaction.atomic
def add_plate(*, job_id: int, size: PlateSize, now: datetime) -> PlateSlot:
    """Promise one more plate in a sitting, made after its others, from the same start. BenchFull changes nothing."""
    job, _day = locked_job(job_id=job_id)
    if job.released_at is not None:
        raise JobReleased(_("This place was given back; book a new sitting instead."))
    _refuse_begun(job)
    _start_minute(job.day, job.starts_at, now)
    before = job.as_sitting()
    job.plan = {}
    job.expected_at = None
    placing.place(
        day=job.day,
        job=job,
        asked=capacity.Sitting(before.start, (*before.plates, size.as_capacity())),
        now=now,
    )
    return PlateSlot.objects.create(job=job, position=job.slots.count() + 1, size=size)


def _start_minute(day: BenchDay, starts_at: datetime, now: datetime) -> int:
    if starts_at <= now:
        raise StartPassed(_("That start time has passed. Choose a later one."))
    if (starts_at - day.opens_at) % timedelta(minutes=1):
        raise StartPassed(_("A sitting starts on a whole minute."))
    return day.minute(starts_at)


def locked_job(*, job_id: int, and_day: int | None = None) -> tuple[BenchJob, dict[int, BenchDay]]:
    """The job with its day, and both days by id, all locked. One that was moved meanwhile is followed."""
    job = BenchJob.objects.get(pk=job_id)
    days: dict[int, BenchDay] = {}
    while job.day_id not in days:
        # In the order of their ids, so that two moves never wait for each other.
        wanted = {job.day_id, job.day_id if and_day is None else and_day}
        days = {day_id: lock_day(day_id) for day_id in sorted(wanted)}
        found = BenchJob.objects.select_for_update(of=("self",)).select_related("retake_of__size")
        job = found.get(pk=job_id)
    job.day = days[job.day_id]
    return job, days


def _stored(*, job_id: int, now: datetime, at_the_door: bool = False) -> BenchJob:
    """Return the job with its place sure at `now`, taking the place anew when the hold has lapsed."""
    job, _day = locked_job(job_id=job_id)
    if job.released_at is not None:
        raise JobReleased(_("This place was given back; book a new sitting instead."))
    if job.counts(now):
        return job
    if not at_the_door or not _in_time(job, now):
        _start_minute(job.day, job.starts_at, now)
    if job.starts_at > now:
        placing.place(day=job.day, job=job, asked=job.as_sitting(), now=now)
    elif placing.store(day=job.day, job=job, now=now):
        placing.changed(day=job.day)
    else:
        raise StartPassed(_("That start time has passed and its place was sold. Choose a later one."))
    return job


def _in_time(job: BenchJob, now: datetime) -> bool:
    """Whether the first plate can still be poured within the minutes it was promised for."""
    bench = job.day.bench
    return now <= job.starts_at + timedelta(minutes=bench.tolerance + bench.first_pour_within)


def _refuse_begun(job: BenchJob) -> None:
    if job.begun_at is not None:
        raise BenchPromised(
            _("A plate of this sitting has been poured, so its place can no longer be moved or given back.")
        )
