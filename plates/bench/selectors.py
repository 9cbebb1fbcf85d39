"""What the ledger says."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.db.models import Prefetch
from django.utils.translation import gettext as _

from plates.bench.models import Bench, BenchDay, Plate, PlateEvent, PlateFacts, PlateSlot, SpoiltReason, Stage


@dataclass(frozen=True, slots=True)
class InWash:
    """A plate in the wash: since when, and from when to when it may be lifted."""

    plate: Plate
    since: datetime
    lift_from: datetime
    lift_by: datetime


def slots_of(*, job_ids: Collection[int]) -> dict[int, list[PlateSlot]]:
    """The promised plates of each job in order, with every plate poured for them; two queries for any number."""
    plates = Prefetch("plates", Plate.objects.select_related("retake"))
    slots = PlateSlot.objects.filter(job_id__in=job_ids).select_related("size").prefetch_related(plates)
    found: dict[int, list[PlateSlot]] = {job_id: [] for job_id in job_ids}
    for slot in slots:
        found[slot.job_id].append(slot)
    return found


def live_plate(slot: PlateSlot) -> Plate | None:
    """The plate that is being made for this place, leaving out spoilt ones; needs `plates` at hand."""
    return next((plate for plate in slot.plates.all() if plate.stage != Stage.SPOILT), None)


def retake_at(plate: Plate) -> datetime | None:
    """When the plan of the day has room to make a spoilt plate again, if it has; needs `retake` at hand."""
    job = getattr(plate, "retake", None)  # the row is missing where no room was found
    return job.starts_at if job else None


def in_the_wash(*, bench: Bench) -> list[InWash]:
    """The plates in the wash of `bench`, the one to be lifted first on top."""
    plates = Plate.objects.filter(stage=Stage.WASHING, slot__job__day__bench=bench).select_related("size")
    return [
        InWash(
            plate=plate,
            since=plate.stage_at,
            lift_from=plate.stage_at + timedelta(minutes=bench.wash_least),
            lift_by=plate.stage_at + timedelta(minutes=bench.wash_most),
        )
        for plate in plates.order_by("stage_at", "number")
    ]


def plates_made(*, slot_ids: Collection[int]) -> dict[int, list[Plate]]:
    """The plates poured for each slot, oldest first, with size and the events that hold; two queries for any number.

    Those poured by mistake never were. `plate.events.all()` gives the events, oldest first.
    """
    poured = Plate.objects.filter(slot_id__in=slot_ids).exclude(spoilt_reason=SpoiltReason.MISTAKE)
    found: dict[int, list[Plate]] = {slot_id: [] for slot_id in slot_ids}
    for plate in poured.select_related("size").prefetch_related(events_that_hold()).order_by("number"):
        found[plate.slot_id].append(plate)
    return found


def events_that_hold() -> "Prefetch[str]":
    """For plates to bring along only those of their events that hold."""
    return Prefetch("events", PlateEvent.objects.valid())


def history(*, plate: Plate) -> list[tuple[str, datetime, str, str]]:
    """What happened to a plate, oldest first: stage, when, by whom, note."""
    events = plate.events.select_related("operator")
    return [
        (
            _("{stage} again: a press taken back").format(stage=event.get_stage_display())
            if event.undoes_id
            else event.get_stage_display(),
            event.at,
            event.operator.get_username() if event.operator else "",
            event.note,
        )
        for event in events
    ]


def facts_of(*, plate: Plate) -> PlateFacts | None:
    """What was noted, with who noted it last; None when nothing was."""
    return PlateFacts.objects.select_related("changed_by").filter(plate=plate).first()


def made_on(*, day: BenchDay) -> list[Plate]:
    """The plates of a day that were not given up, by their numbers, with size and facts at hand; one query."""
    plates = Plate.objects.filter(slot__job__day=day).exclude(stage=Stage.SPOILT)
    return list(plates.select_related("size", "facts").order_by("number"))


def days_ahead(*, bench: Bench, now: datetime) -> list[BenchDay]:
    """The next days of a bench whose racks are not empty yet: today's first, three at most."""
    return list(BenchDay.objects.filter(bench=bench, racks_empty_by__gt=now).order_by("opens_at")[:3])
