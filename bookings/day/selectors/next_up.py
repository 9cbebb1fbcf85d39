"""What the photographer is to do next, by name and by the clock."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from bookings.day.selectors.queue import QueueRow
from bookings.diary.models import SittingDay
from bookings.orders.selectors.plates import QueuePlate
from plates.bench.models import BenchDay
from plates.capacity import SittingPlan
from plates.schedule.next_steps import NextStep, Work, next_steps

SHOWN = 4


@dataclass(frozen=True, slots=True)
class NextUp:
    """One press that is due: to which stage, which plate of which sitting, when and until when at the latest."""

    stage: str
    plate: QueuePlate
    row: QueueRow
    due_at: datetime
    latest_at: datetime | None
    overdue: bool


def next_up(*, day: SittingDay, rows: Sequence[QueueRow], now: datetime) -> list[NextUp]:
    """The few presses that are due first on the day; sitters who did not come have none."""
    bench_day = day.bench_day
    expected = [row for row in rows if row.sitting.absent_at is None]
    plates = {plate.slot.pk: (row, plate) for row in expected for plate in row.plates}
    works = [work for row in expected for work in _works(row, bench_day)]
    steps = next_steps(bench_day.bench.as_capacity().timings, works)
    return [_named(step, *plates[step.key], bench_day, now) for step in steps[:SHOWN]]


def _works(row: QueueRow, day: BenchDay) -> Iterator[Work]:
    plan = SittingPlan.from_json(row.sitting.bench_job.plan)
    for plate, planned in zip(row.plates, plan.plates, strict=True):
        if plate.live is not None:
            yield Work(plate.slot.pk, planned, plate.live.stage, _minute(day, plate.live.stage_at))
        else:
            begins = None if plate.retake_at is None else day.minute(plate.retake_at)
            yield Work(plate.slot.pk, planned, begins=begins)


def _minute(day: BenchDay, at: datetime) -> float:
    return (at - day.opens_at) / timedelta(minutes=1)


def _named(step: NextStep, row: QueueRow, plate: QueuePlate, day: BenchDay, now: datetime) -> NextUp:
    due_at = day.opens_at + timedelta(minutes=step.due)
    latest_at = None if step.latest is None else day.opens_at + timedelta(minutes=step.latest)
    return NextUp(step.stage, plate, row, due_at, latest_at, overdue=(latest_at or due_at) < now)
