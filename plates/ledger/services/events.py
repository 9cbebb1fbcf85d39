"""The ledger of plates: pouring, moving on, spoiling. Each service appends one event and tells the plate its stage.

`press` is the key of a press, made up where it was pressed: sent again it is the same press and changes nothing, so a
phone without network may send it as often as it takes.
"""

from datetime import datetime
from uuid import UUID

from django.contrib.auth.models import User
from django.db import transaction
from django.db.models import F
from django.utils.translation import gettext as _

from plates.bench.models import Plate, PlateEvent, PlateNumber, PlateSlot, SpoiltReason, Stage
from plates.bench.stages import NEXT_STAGE
from plates.common.words import within
from plates.errors import SlotTaken, StageOutOfOrder
from plates.schedule.services import jobs as bench
from plates.schedule.services import retakes


@transaction.atomic
def pour(*, slot_id: int, operator: User | None, now: datetime, press: UUID | None = None) -> Plate:
    """Begin a plate for this place in a job, or begin again after a spoilt one. SlotTaken when one is under way."""
    # The job first, whose day is locked with it: its place cannot be given back or sold between here and there.
    bench.begin(job_id=PlateSlot.objects.get(pk=slot_id).job_id, now=now)
    slot = PlateSlot.objects.select_for_update(of=("self",)).select_related("size").get(pk=slot_id)
    if pressed := _pressed_before(press):
        return pressed
    if slot.given_up_at is not None:
        raise StageOutOfOrder(_("This sitting ended without a plate, so none is poured for it any more."))
    if slot.plates.exclude(stage=Stage.SPOILT).exists():
        raise SlotTaken(_("A plate for this place in the order is already being made."))
    plate = Plate.objects.create(
        number=_next_number(), slot=slot, size=slot.size, stage=Stage.POURED, stage_at=now
    )
    PlateEvent.objects.create(plate=plate, stage=Stage.POURED, at=now, operator=operator, press=press)
    retakes.begin(slot=slot, now=now)
    return plate


@transaction.atomic
def record_stage(
    *, plate_id: int, stage: str, operator: User | None, now: datetime, press: UUID | None = None
) -> Plate:
    """Move a plate on to `stage`. The same press twice moves it once; any other order is StageOutOfOrder."""
    plate = locked(plate_id=plate_id)
    if plate.stage == stage or _pressed_before(press):
        return plate
    following = NEXT_STAGE.get(plate.stage)
    if following is None or following != stage:
        raise StageOutOfOrder(_why_not(plate, following, stage))
    return append(plate=plate, event=PlateEvent(stage=following, at=now, operator=operator, press=press))


@transaction.atomic
def spoil(
    *,
    plate_id: int,
    reason: str,
    note: str,
    operator: User | None,
    now: datetime,
    press: UUID | None = None,
    told_at: datetime | None = None,
) -> Plate:
    """Give a plate up and keep the reason; room to make it again is kept on its day where there is any.

    `told_at`: when it became known here, if that was later than the press; no room is kept before it.
    """
    # The day first, as everywhere: a place may be sold on it at this moment.
    job, _day = bench.locked_job(job_id=Plate.objects.select_related("slot").get(pk=plate_id).slot.job_id)
    plate = locked(plate_id=plate_id)
    if plate.stage == Stage.SPOILT or _pressed_before(press):
        return plate
    if plate.stage == Stage.HANDED_OVER:
        raise StageOutOfOrder(
            _("Plate {number} is in its owner's hands and can no longer be spoilt here.").format(
                number=plate.number
            )
        )
    plate.spoilt_reason = SpoiltReason(reason)
    append(
        plate=plate,
        event=PlateEvent(stage=Stage.SPOILT, at=now, operator=operator, note=note, press=press),
    )
    retakes.plan(plate=plate, day=job.day, now=told_at or now)
    return plate


def locked(*, plate_id: int) -> Plate:
    """The plate's row, held until the transaction ends."""
    return Plate.objects.select_for_update(of=("self",)).get(pk=plate_id)


def append(*, plate: Plate, event: PlateEvent) -> Plate:
    """Add an event to a locked plate and bring the plate to its stage."""
    event.plate = plate
    event.turn = plate.events.filter(stage=event.stage, undoes__isnull=True).count()
    event.save(force_insert=True)
    plate.stage, plate.stage_at = event.stage, event.at
    plate.save(update_fields=["stage", "stage_at", "spoilt_reason"])
    return plate


def _pressed_before(press: UUID | None) -> Plate | None:
    """The plate that this very press has already changed."""
    found = PlateEvent.objects.select_related("plate").filter(press=press).first() if press else None
    return found.plate if found else None


def _why_not(plate: Plate, following: Stage | None, asked: str) -> str:
    facts = {"number": plate.number, "stage": within(plate.get_stage_display())}
    if following is None:
        return _("Plate {number} is {stage}; nothing follows.").format(**facts)
    facts["next"] = within(following.label)
    # What was asked for comes from a form: it need not be a stage at all.
    if asked not in Stage.values:
        return _("Plate {number} is {stage}; the next stage is {next}.").format(**facts)
    return _("Plate {number} is {stage}; the next stage is {next}, not {asked}.").format(
        **facts, asked=within(Stage(asked).label)
    )


def _next_number() -> int:
    """Take the next running number; the row stays locked until the pouring is committed, so none is lost."""
    PlateNumber.objects.get_or_create(pk=1)
    PlateNumber.objects.filter(pk=1).update(last=F("last") + 1)
    return PlateNumber.objects.get(pk=1).last
