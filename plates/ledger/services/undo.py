"""Taking the newest press back, for a few seconds. Nothing is erased: the press and its taking back are both kept."""

from datetime import datetime
from uuid import UUID

from django.contrib.auth.models import User
from django.db import transaction
from django.utils.translation import gettext as _

from plates.bench.models import BenchJob, Plate, PlateEvent, PlateSlot, SpoiltReason, Stage
from plates.bench.stages import UNDO_FOR
from plates.errors import SlotTaken, TooLate
from plates.ledger.services import events as ledger
from plates.schedule.services import jobs as bench
from plates.schedule.services import placing


@transaction.atomic
def undo_press(*, plate_id: int, operator: User | None, now: datetime, press: UUID | None = None) -> Plate:
    """Bring a plate back to where it was before its newest press; the same press twice takes back once.

    A pour taken back leaves a plate number that was never poured. TooLate after UNDO_FOR; SlotTaken when a spoilt
    plate is already being made again, or was the last of a sitting that has ended without one.
    """
    job, _day = bench.locked_job(job_id=Plate.objects.select_related("slot").get(pk=plate_id).slot.job_id)
    plate = ledger.locked(plate_id=plate_id)
    if press is not None and PlateEvent.objects.filter(press=press).exists():
        return plate
    *before, newest = PlateEvent.objects.valid().filter(plate=plate)
    if not newest.at <= now <= newest.at + UNDO_FOR:
        raise TooLate(
            _("A press can be taken back for {seconds} seconds; that time is over.").format(
                seconds=UNDO_FOR.seconds
            )
        )
    if not before:
        _undo_pour(job, plate, newest)
        placing.changed(day=job.day)
        event = PlateEvent(stage=Stage.SPOILT, at=now, operator=operator, press=press, note="taken back")
        return ledger.append(plate=plate, event=event)
    if newest.stage == Stage.SPOILT:
        _undo_retake(plate)
        placing.changed(day=job.day)
    event = PlateEvent(stage=before[-1].stage, at=now, operator=operator, press=press, undoes=newest)
    ledger.append(plate=plate, event=event)
    # Bath, wet window and wash run on from when they really began.
    plate.stage_at = before[-1].at
    plate.save(update_fields=["stage_at"])
    return plate


def _undo_retake(plate: Plate) -> None:
    """The plate is not given up after all: the room for making it again goes back too."""
    if PlateSlot.objects.filter(pk=plate.slot_id, given_up_at__isnull=False).exists():
        raise SlotTaken(_("This sitting has ended without a plate, so its last plate stays given up."))
    if plate.slot.plates.exclude(stage=Stage.SPOILT).exists():
        raise SlotTaken(_("This plate is already being made again, so it can no longer be taken back."))
    plate.spoilt_reason = ""
    BenchJob.objects.filter(retake_of=plate, begun_at__isnull=True).delete()


def _undo_pour(job: BenchJob, plate: Plate, pour: PlateEvent) -> None:
    """What this pour has begun has not begun."""
    plate.spoilt_reason = SpoiltReason.MISTAKE
    BenchJob.objects.filter(retake_of__slot=plate.slot, begun_at=pour.at).update(begun_at=None)
    others = Plate.objects.filter(slot__job=job).exclude(pk=plate.pk)
    if not others.exclude(spoilt_reason=SpoiltReason.MISTAKE).exists():
        BenchJob.objects.filter(pk=job.pk).update(begun_at=None)
