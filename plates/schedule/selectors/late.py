"""What the ledger and the promises say of a day under way, as the engine wants it."""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from hashlib import sha256
from itertools import zip_longest

from django.db.models import Max

from plates.bench.models import BenchDay, BenchJob, Plate, PlateEvent, PlateSlot, Stage
from plates.bench.selectors import events_that_hold, plates_made
from plates.capacity.late.progress import Made, Work, soonest
from plates.schedule.selectors.openings import promised_jobs
from plates.schedule.selectors.start_times import fingerprint

# The press that tells the engine of each step; the wash begins when fixing ends.
TOLD_BY = {
    Stage.POURED: "poured",
    Stage.SENSITISED: "out",
    Stage.EXPOSED: "exposed",
    Stage.DEVELOPED: "developed",
    Stage.FIXED: "fixed",
    Stage.DRYING: "lifted",
}
WET = (Stage.SENSITISED, Stage.EXPOSED)


@dataclass(frozen=True, slots=True)
class JobWork:
    """One job as it stands; without a `job`: a plate to be made again that the plan of the day has no room for."""

    job: BenchJob | None
    work: Work


def day_work(*, day: BenchDay, now: datetime, absent: Collection[int] = ()) -> list[JobWork]:
    """All work of a day, the jobs in promised order and what the plan has no room for last; a few queries.

    `absent`: jobs whose sitter did not come; they take no more work unless a plate was poured all the same.
    """
    jobs = promised_jobs(day=day, now=now)
    chains = plates_made(
        slot_ids=[slot.pk for job in jobs if job.retake_of is None for slot in job.slots.all()]
    )
    retakes = {job.retake_of_id: job for job in jobs if job.retake_of is not None}
    found = [_of_job(day, job, chains) for job in jobs if job.retake_of is None]
    ended = {slot.pk for job in jobs for slot in job.slots.all() if slot.given_up_at is not None}
    found += _retakes(day, list(chains.values()), retakes, ended, now)
    found = [each for each in found if each.work.begun or each.job is None or each.job.pk not in absent]
    return sorted(found, key=lambda each: (each.job is None, each.work.booked.sitting.start))


def fingerprint_under_way(*, day: BenchDay, absent: Collection[int]) -> str:
    """A name for all that the new times of a day hang on but the time itself; another one after any press or mark."""
    newest = PlateEvent.objects.filter(plate__slot__job__day=day).aggregate(newest=Max("pk"))["newest"]
    return sha256(repr((fingerprint(day), newest, sorted(absent))).encode()).hexdigest()[:40]


def dried(*, day: BenchDay, now: datetime) -> list[Plate]:
    """The plates that are out of the bath, not developed, and can no longer be within their wet window."""
    bench = day.bench
    plates = Plate.objects.filter(slot__job__day=day, stage__in=WET).prefetch_related(events_that_hold())
    late = []
    for plate in plates.order_by("number"):
        out = next((event.at for event in plate.events.all() if event.stage == Stage.SENSITISED), None)
        if out is not None and now > out + timedelta(minutes=bench.wet_window):
            late.append(plate)
    return late


def _of_job(day: BenchDay, job: BenchJob, chains: dict[int, list[Plate]]) -> JobWork:
    """A sitting with the first plate poured for each of its slots: the others are retakes."""
    slots: list[PlateSlot] = list(job.slots.all())
    made = tuple(_made(day, chains[slot.pk][0]) if chains[slot.pk] else Made() for slot in slots)
    return JobWork(job, Work(job.as_booked(), made))


def _retakes(
    day: BenchDay,
    chains: Sequence[list[Plate]],
    jobs: dict[int | None, BenchJob],
    ended: Collection[int],
    now: datetime,
) -> Iterator[JobWork]:
    """Each spoilt plate with the one made for it after that, or still to be made while the day is at work."""
    for chain in chains:
        for spoilt, again in zip_longest(chain, chain[1:]):
            if spoilt.stage != Stage.SPOILT or (again is None and now >= day.closes_at):
                continue
            if again is None and spoilt.slot_id in ended:
                continue
            job, made = jobs.get(spoilt.pk), _made(day, again) if again else Made()
            if job is not None:
                yield JobWork(job, Work(job.as_booked(), (made,)))
                continue
            start = made.poured - day.bench.settle if made.poured is not None else day.minute(now)
            booked = soonest(day.bench.as_capacity(), spoilt.size.as_capacity(), max(0, start))
            yield JobWork(None, Work(booked, (made,)))


def _made(day: BenchDay, plate: Plate) -> Made:
    """The presses on a plate in minutes; a clock that was set back between two of them counts as standing still."""
    told: dict[str, int] = {}
    last: int | None = None
    for event in plate.events.all():
        if name := TOLD_BY.get(Stage(event.stage)):
            minute = day.minute(event.at)
            last = minute if last is None else max(last, minute)
            told[name] = last
    return Made(**told, spoilt=plate.stage == Stage.SPOILT)
