"""A plate that has to be made again takes hands, bath and wash anew: its room is found and kept like any other."""

from dataclasses import replace
from datetime import datetime

from plates import capacity
from plates.bench.models import BenchDay, BenchJob, Plate, PlateSlot
from plates.capacity.problem.case import Case
from plates.schedule.selectors.openings import promised_jobs
from plates.schedule.services import placing


def plan(*, plate: Plate, day: BenchDay, now: datetime) -> BenchJob | None:
    """Keep the earliest room on the locked `day` for making a spoilt plate again; None where there is none.

    The promises to others are kept as they are planned. The sitter is settled anew, and what the spoilt plate was
    to hold from now on stays reserved: so little is gained by giving it back that a simple plan is worth more.
    """
    if not day.opens_at <= now < day.closes_at:
        return None
    # A retake is promised to nobody on the clock, so it may begin at any minute.
    hours = replace(day.as_capacity(), start_every=1)
    booked = tuple(job.as_booked() for job in promised_jobs(day=day, now=now))
    case, plates = Case(day.bench.as_capacity(), hours, booked), (plate.size.as_capacity(),)
    for minute in range(day.minute(now) + 1, hours.closes):
        if found := case.insert(capacity.Sitting(minute, plates)):
            return _stored(plate, day, found, day.instant(minute), now)
    return None


def begin(*, slot: PlateSlot, now: datetime) -> None:
    """Note that the retake for this place is being poured, so that no re-plan moves it any more."""
    BenchJob.objects.filter(retake_of__slot=slot, begun_at__isnull=True).update(begun_at=now)


def _stored(
    plate: Plate, day: BenchDay, found: capacity.SittingPlan, starts_at: datetime, now: datetime
) -> BenchJob:
    job = BenchJob.objects.create(
        day=day,
        starts_at=starts_at,
        held_until=starts_at,
        confirmed_at=now,
        retake_of=plate,
        plan=found.as_json(),
    )
    placing.changed(day=day)
    return job
