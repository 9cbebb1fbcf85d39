"""Keeping a place while its deposit is on the way."""

from datetime import datetime, timedelta

from bookings.studio.selectors import the_studio
from plates.bench.models import BenchJob
from plates.schedule.services import jobs as bench


def until_deposit(*, job_id: int, now: datetime) -> BenchJob:
    """Hold a place for as long as the studio waits for a deposit, never past its start. BenchFull if it has gone."""
    due = now + timedelta(hours=the_studio().deposit_hours)
    return bench.extend(job_id=job_id, held_until=due, now=now)
