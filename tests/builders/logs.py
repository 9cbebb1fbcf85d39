"""A bench with a log: plates made one after the other on a day that is over, through the ledger's own services."""

from datetime import UTC, date, datetime, timedelta

from plates.bench.models import BenchJob, PlateSlot, Stage
from plates.capacity import PlatePlan, SittingPlan
from plates.ledger.services import events as ledger
from tests import builders

PAST = date(2026, 11, 14)
FIRST_POUR = datetime(2026, 11, 14, 8, 0, tzinfo=UTC)
STAGES = (Stage.SENSITISED, Stage.EXPOSED, Stage.DEVELOPED, Stage.FIXED, Stage.WASHING, Stage.DRYING)
# Seconds from one press to the next: developing takes longer than the two minutes that are planned.
LENGTHS = (300, 170, 150, 100, 20, 3900)


def a_log(bench, plates, *, size="quarter", lengths=LENGTHS, first=FIRST_POUR):
    """So many plates, each begun a quarter of an hour after the last; the day they are made on is over."""
    day = bench.days.filter(on=PAST).first() or builders.a_day(on=PAST, bench=bench).bench_day
    rough = SittingPlan(settle=0, farewell=9, plates=(PlatePlan(*range(1, 9)),) * plates)
    job = BenchJob.objects.create(
        day=day, starts_at=first, held_until=first, confirmed_at=first, plan=rough.as_json()
    )
    for place in range(plates):
        slot = PlateSlot.objects.create(job=job, position=place + 1, size=builders.a_size(size))
        now = first + place * timedelta(minutes=15)
        plate = ledger.pour(slot_id=slot.pk, operator=None, now=now)
        for stage, seconds in zip(STAGES, lengths, strict=False):
            now += timedelta(seconds=seconds)
            ledger.record_stage(plate_id=plate.pk, stage=stage, operator=None, now=now)
    return job
