"""What lies on the rack and for how long, and what is still to come onto it."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any

from django.db.models import FilteredRelation, Q, QuerySet
from django.db.models.expressions import Expression, OrderBy

from plates.bench.models import BenchJob, Plate, PlateSlot, Stage
from plates.capacity import SittingPlan
from plates.finishing.models import ClosedDay, Finishing

FINISHED = (Stage.READY, Stage.HANDED_OVER)
MINUTE = timedelta(minutes=1)
# What is read of an awaited plate; `live` is the one being made for its slot. Typed loosely: mypy knows no `live`.
AWAITED: tuple[Any, ...] = (
    "pk",
    "job_id",
    "position",
    "job__plan",
    "job__day__opens_at",
    "live__stage",
    "live__stage_at",
)


@dataclass(frozen=True, slots=True)
class OnRack:
    """A plate that dries or cures: since when, for how many minutes by now, and from when on it can be taken on."""

    plate: Plate
    since: datetime
    ready_from: datetime
    minutes: int


@dataclass(frozen=True, slots=True)
class Rack:
    """What can be varnished now, what still dries, what can be packed now, what still cures; longest lain first."""

    dry: list[OnRack]
    drying: list[OnRack]
    cured: list[OnRack]
    curing: list[OnRack]

    @property
    def empty(self) -> bool:
        return not (self.dry or self.drying or self.cured or self.curing)


@dataclass(frozen=True, slots=True)
class Awaited:
    """A promised plate that is not ready: for which slot of which job, and when it came or comes to the rack.

    `varnished` is when it was; None: it still has to be.
    """

    slot_id: int
    job_id: int
    racked: datetime
    varnished: datetime | None


def the_finishing() -> Finishing:
    """How the studio finishes plates; the usual values until it has set up its own."""
    return Finishing.objects.first() or Finishing(pk=1)


def closed_dates(*, since: date) -> dict[date, str]:
    """The dates from `since` on when the studio is closed, and why."""
    return dict(ClosedDay.objects.filter(on__gte=since).values_list("on", "why"))


def rack(*, finishing: Finishing, now: datetime) -> Rack:
    """Every plate between wash and packing, by how long it has lain."""
    plates = Plate.objects.filter(stage__in=(Stage.DRYING, Stage.VARNISHED)).select_related("size", "slot")
    least = {Stage.DRYING: finishing.dry_least, Stage.VARNISHED: finishing.cure_least}
    lying = [
        OnRack(
            plate,
            plate.stage_at,
            plate.stage_at + least[Stage(plate.stage)] * MINUTE,
            (now - plate.stage_at) // MINUTE,
        )
        for plate in plates.order_by("stage_at", "number")
    ]
    by_stage = {stage: [each for each in lying if each.plate.stage == stage] for stage in least}
    return Rack(
        dry=[each for each in by_stage[Stage.DRYING] if each.ready_from <= now],
        drying=[each for each in by_stage[Stage.DRYING] if each.ready_from > now],
        cured=[each for each in by_stage[Stage.VARNISHED] if each.ready_from <= now],
        curing=[each for each in by_stage[Stage.VARNISHED] if each.ready_from > now],
    )


def awaited(*, now: datetime, order: Expression | None = None) -> list[Awaited]:
    """Every promised plate that is not ready yet, in one query. Left out: what was not poured on a day that is over.

    `order`: an expression over slots by which they are ordered, those without a value last; else as they were sold.
    """
    coming = Q(live__stage__isnull=False) | Q(job__day__racks_empty_by__gt=now)
    slots = unfinished().filter(coming, job__in=BenchJob.objects.promised(now))
    by = [OrderBy(order, nulls_last=True)] if order is not None else []
    found: Iterable[Any] = slots.order_by(*by, "pk").values_list(*AWAITED)
    return [_awaited(*row, now=now) for row in found]


def unfinished() -> QuerySet[PlateSlot]:
    """The promised plates that are neither ready nor handed over, nor given up; `live` is the one being made."""
    slots = PlateSlot.objects.filter(given_up_at=None)
    with_live = slots.annotate(live=FilteredRelation("plates", condition=~Q(plates__stage=Stage.SPOILT)))
    return with_live.exclude(live__stage__in=FINISHED)


def unfinished_slots(*, job_ids: Collection[int]) -> dict[int, set[int]]:
    """The promised plates of each job that are neither ready nor handed over, by the ids of their slots."""
    rows = list(unfinished().filter(job_id__in=job_ids).values_list("pk", "job_id"))
    return {job_id: {slot for slot, job in rows if job == job_id} for job_id in job_ids}


def racked_at(job: BenchJob) -> list[datetime]:
    """When each plate of a job comes onto the rack by its plan; needs `day` at hand."""
    return [job.day.instant(plate.lift) for plate in SittingPlan.from_json(job.plan).plates]


def _awaited(
    slot_id: int,
    job_id: int,
    position: int,
    stored: object,
    opens_at: datetime,
    stage: str | None,
    stage_at: datetime | None,
    *,
    now: datetime,
) -> Awaited:
    if stage == Stage.VARNISHED:
        return Awaited(slot_id, job_id, racked=stage_at or now, varnished=stage_at)
    if stage == Stage.DRYING:
        return Awaited(slot_id, job_id, racked=stage_at or now, varnished=None)
    plan = SittingPlan.from_json(stored).plates[position - 1]
    planned, takes = opens_at + plan.lift * MINUTE, (plan.lift - plan.pour) * MINUTE
    # One that is not poured yet, or is to be poured again, comes no sooner than if that were done now.
    soonest = now if stage else now + takes
    return Awaited(slot_id, job_id, racked=max(planned, soonest), varnished=None)
