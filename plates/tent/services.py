"""A press made in the dark tent, perhaps without network and some time ago."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from uuid import UUID

from django.contrib.auth.models import User
from django.db import transaction
from django.utils.translation import gettext as _

from plates.bench.models import BenchDay, Plate, PlateEvent, PlateSlot, SpoiltReason
from plates.errors import PressRefused
from plates.ledger.services import events as ledger
from plates.ledger.services.undo import undo_press
from plates.schedule.services import late
from plates.tent.selectors.plates import STEPS

# How far two clocks may differ before a press is refused rather than set right.
SLACK = timedelta(seconds=60)
OLDEST = timedelta(hours=12)
IN_THE_TENT = frozenset(stage for stage, _ in STEPS.values())


@dataclass(frozen=True, slots=True)
class TentPress:
    """What was pressed: its own key, the kind (pour, stage, spoil, undo), for which promised plate, and when.

    The plate is named by its `plate` number, or by `pour`, the key of the press that poured it, when the telephone had
    not yet been told the number.
    """

    press: UUID
    kind: str
    slot: int
    plate: int | None
    pour: UUID | None
    stage: str
    reason: str
    at: datetime


def record_press(*, day_id: int, asked: TentPress, operator: User | None, now: datetime) -> None:
    """Enter a press in the ledger under the time it was made; the same press twice is entered once.

    A plate to be made again makes others later: their times are worked out at once. PressRefused where the press
    cannot be placed, else what pouring, moving on, spoiling and undoing refuse.
    """
    _enter(day_id, asked, operator, now)
    if asked.kind == "spoil":
        late.expect_while_at_work(day=BenchDay.objects.get(pk=day_id), now=now)


@transaction.atomic
def _enter(day_id: int, asked: TentPress, operator: User | None, now: datetime) -> None:
    if PlateEvent.objects.filter(press=asked.press).exists():
        return
    slot = PlateSlot.objects.filter(pk=asked.slot, job__day=day_id).first()
    if slot is None:
        raise PressRefused(_("That plate is not made on this day."))
    if asked.kind == "pour":
        newest = slot.plates.order_by("number").last()
        at = _bounded(asked.at, newest, now)
        ledger.pour(slot_id=slot.pk, operator=operator, now=at, press=asked.press)
        return
    plate = _plate_of(slot, asked)
    if asked.kind == "stage" and plate.stage == asked.stage:
        return  # another telephone was quicker
    _move(plate, asked, operator, _bounded(asked.at, plate, now), now)


def _move(plate: Plate, asked: TentPress, operator: User | None, at: datetime, now: datetime) -> None:
    if asked.kind == "stage":
        if asked.stage not in IN_THE_TENT:
            # Whether a plate may leave the house hangs on what is owed, which nobody knows in here.
            raise PressRefused(
                _("In the tent a plate comes as far as the rack. What follows is pressed in the light.")
            )
        ledger.record_stage(
            plate_id=plate.pk, stage=asked.stage, operator=operator, now=at, press=asked.press
        )
    elif asked.kind == "spoil":
        ledger.spoil(
            plate_id=plate.pk,
            reason=asked.reason,
            note="",
            operator=operator,
            now=at,
            press=asked.press,
            told_at=now,
        )
    elif plate.spoilt_reason == SpoiltReason.MISTAKE:
        raise PressRefused(
            _("The pour of plate {number} has been taken back already.").format(number=plate.number)
        )
    else:
        undo_press(plate_id=plate.pk, operator=operator, now=at, press=asked.press)


def _plate_of(slot: PlateSlot, asked: TentPress) -> Plate:
    """The plate that was in the operator's hands, even if another is being made for its place by now."""
    plates = Plate.objects.filter(slot=slot)
    if asked.plate is not None:
        found = plates.filter(number=asked.plate).first()
    else:
        found = plates.filter(events__press=asked.pour).first() if asked.pour else None
    if found is None:
        raise PressRefused(_("The plate of this press was never entered as poured, so nothing was changed."))
    return found


def _bounded(at: datetime, plate: Plate | None, now: datetime) -> datetime:
    """The time of the press, set right by SLACK where clocks differ; PressRefused beyond that."""
    if at > now + SLACK:
        raise PressRefused(_("The clock of that telephone is ahead: set it right, then press again."))
    if at < now - OLDEST:
        raise PressRefused(_("That press is more than 12 hours old, too old to be entered here."))
    newest = plate.events.order_by("id").last() if plate else None
    if newest is not None and at < newest.at - SLACK:
        raise PressRefused(
            _("Plate {number} has been moved on since that press, so the press was left out.").format(
                number=newest.plate.number
            )
        )
    at = min(at, now)
    return max(at, newest.at) if newest is not None else at
