"""The day of a bench as a drawing."""

from collections.abc import Mapping
from datetime import datetime, tzinfo

from django.utils.translation import gettext as _

from plates.bench.models import BenchDay, BenchJob
from plates.schedule.lanes import Drawing, LaneJob, lay_out
from plates.schedule.selectors.openings import promised_jobs


def day_lanes(*, day: BenchDay, labels: Mapping[int, str], zone: tzinfo, now: datetime) -> Drawing:
    """Every promise of the day at `now` in lanes, on the clock of `zone`.

    `labels` says what to call each job, by its id; one that is not named is called by its start.
    """

    def clock(minute: int) -> str:
        return f"{day.instant(minute).astimezone(zone):%H:%M}"

    jobs = [
        LaneJob(
            label=labels.get(job.pk) or _own_label(job, clock(day.minute(job.starts_at))),
            booked=job.as_booked(),
            firm=job.confirmed_at is not None,
        )
        for job in promised_jobs(day=day, now=now)
    ]
    return lay_out(day.bench.as_capacity(), day.as_capacity(), jobs, now=day.minute(now), clock=clock, say=_)


def _own_label(job: BenchJob, starts: str) -> str:
    return (
        _("{starts} retake of plate {number}").format(starts=starts, number=job.retake_of.number)
        if job.retake_of
        else starts
    )
