"""The wash and the rack of a day: which plate lies where, and when it may be lifted."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.db.models import Prefetch

from plates.bench.models import (
    BenchDay,
    BenchJob,
    Plate,
    PlateEvent,
    PlateSize,
    PlateSlot,
    SpoiltReason,
    Stage,
)
from plates.schedule.lanes import wash_places
from plates.schedule.selectors.openings import promised_jobs

ON_THE_WAY = (Stage.WASHING, Stage.DRYING, Stage.VARNISHED)
TOLD = (Stage.WASHING, Stage.DRYING, Stage.VARNISHED, Stage.READY)


@dataclass(frozen=True, slots=True)
class RackPlate:
    """A plate on its way through wash and rack: `plate` is None before it is poured, `job_id` the sitting's own job.

    `washed_from` is planned until it has really gone into the wash (`in_wash`); the window to lift it hangs on that.
    """

    job_id: int
    size: PlateSize
    plate: Plate | None
    places: tuple[int, ...]
    in_wash: bool
    washed_from: datetime
    lift_from: datetime
    lift_by: datetime
    reached: dict[str, datetime]


@dataclass(frozen=True, slots=True)
class _Planned:
    slot: PlateSlot
    plate: Plate | None
    places: tuple[int, ...]
    washed_from: datetime


def rack_plates(*, day: BenchDay, now: datetime) -> list[RackPlate]:
    """Every plate promised on `day`, retakes included, the one to be lifted first on top; needs `day.bench` at hand."""
    jobs = promised_jobs(day=day, now=now)
    places = wash_places(day.bench.as_capacity(), [job.as_booked() for job in jobs])
    slots = _slots(jobs)
    planned = [
        each
        for job, taken in zip(jobs, places, strict=True)
        for each in _planned(day, job, taken, slots, {job.retake_of_id for job in jobs})
    ]
    reached = _reached(each.plate for each in planned)
    found = [_rack_plate(day, each, reached.get(each.plate.pk, {}) if each.plate else {}) for each in planned]
    return sorted(found, key=lambda each: (each.lift_from, each.places))


def left_over(*, day: BenchDay) -> list[Plate]:
    """Plates of other days that are still in the wash or on the rack of this bench, with the stage they are at."""
    still = Plate.objects.filter(stage__in=ON_THE_WAY, slot__job__day__bench=day.bench_id)
    return list(still.exclude(slot__job__day=day).select_related("size").order_by("number"))


def _slots(jobs: Sequence[BenchJob]) -> dict[int, PlateSlot]:
    """The places of the jobs and of the plates they make again, with every plate that was really poured for them."""
    poured = Plate.objects.exclude(spoilt_reason=SpoiltReason.MISTAKE).order_by("number")
    wanted = {slot.pk for job in jobs for slot in job.slots.all()}
    wanted |= {job.retake_of.slot_id for job in jobs if job.retake_of is not None}
    found = PlateSlot.objects.filter(pk__in=wanted).select_related("size")
    return {slot.pk: slot for slot in found.prefetch_related(Prefetch("plates", poured))}


def _planned(
    day: BenchDay,
    job: BenchJob,
    places: Sequence[Sequence[int]],
    slots: dict[int, PlateSlot],
    retaken: set[int | None],
) -> Iterable[_Planned]:
    """What the job puts into the wash; a plate that was spoilt is left to the job that makes it again."""
    again = job.retake_of
    own = [again.slot_id] if again is not None else [slot.pk for slot in job.slots.all()]
    for slot_id, taken, plan in zip(own, places, job.as_booked().plan.plates, strict=True):
        slot = slots[slot_id]
        if slot.given_up_at is not None:
            continue
        tried = [plate for plate in slot.plates.all() if again is None or plate.number > again.number]
        given_up = [plate for plate in tried if plate.stage == Stage.SPOILT]
        if any(plate.pk in retaken for plate in given_up):
            continue
        live = next((plate for plate in tried if plate.stage != Stage.SPOILT), None)
        yield _Planned(slot, live, tuple(taken), day.instant(plan.wash_in))


def _reached(plates: Iterable[Plate | None]) -> dict[int, dict[str, datetime]]:
    """When each plate really came into the wash and to what follows; a press taken back does not count."""
    stood = PlateEvent.objects.valid().filter(stage__in=TOLD)
    found: dict[int, dict[str, datetime]] = {}
    for event in stood.filter(plate__in=[plate.pk for plate in plates if plate is not None]):
        found.setdefault(event.plate_id, {})[event.stage] = event.at
    return found


def _rack_plate(day: BenchDay, planned: _Planned, reached: dict[str, datetime]) -> RackPlate:
    began = reached.get(Stage.WASHING)
    since = began or planned.washed_from
    return RackPlate(
        job_id=planned.slot.job_id,
        size=planned.slot.size,
        plate=planned.plate,
        places=planned.places,
        in_wash=began is not None,
        washed_from=since,
        lift_from=since + timedelta(minutes=day.bench.wash_least),
        lift_by=since + timedelta(minutes=day.bench.wash_most),
        reached=reached,
    )
