"""Waste kept and waste collected, and how long a fixer clears. Nothing written down is changed again."""

from dataclasses import dataclass
from datetime import date, datetime

from django.contrib.auth.models import User
from django.db import transaction
from django.utils.translation import gettext as _

from plates.common.dates import latest
from plates.errors import StoreRefused
from plates.store.models import Batch, ClearingTime, Solution, StoreRoom, WasteContainer, WasteEntry


@dataclass(frozen=True, slots=True)
class Disposal:
    """What is written down of waste: microlitres, the day, what was kept or who collected it."""

    kind: str
    amount_ul: int
    on: date
    what: str = ""
    service: str = ""
    note: str = ""


@transaction.atomic
def mark_container(*, label: str, kind: str) -> WasteContainer:
    """Mark a container for waste of one kind. StoreRefused when another one is called the same."""
    if WasteContainer.objects.filter(label=label).exists():
        taken = _("Another container is called %(label)s. Mark this one otherwise.")
        raise StoreRefused(taken % {"label": label})
    return WasteContainer.objects.create(label=label, kind=kind)


@transaction.atomic
def write_down(*, container_id: int, disposal: Disposal, operator: User | None, now: datetime) -> WasteEntry:
    """Add a line to the log of a container. StoreRefused for a day still to come."""
    container = WasteContainer.objects.select_for_update().get(pk=container_id)
    if disposal.on > latest(now):
        raise StoreRefused(_("Waste is written down on its day or later, not before."))
    return WasteEntry.objects.create(
        container=container,
        kind=disposal.kind,
        amount_ul=disposal.amount_ul,
        on=disposal.on,
        what=disposal.what,
        service=disposal.service,
        note=disposal.note,
        operator=operator,
        at=now,
    )


@transaction.atomic
def note_clearing(*, batch_id: int, seconds: int, operator: User | None, now: datetime) -> ClearingTime:
    """Note how long a plate took to clear. StoreRefused for what is no fixer, or is no more."""
    batch = Batch.objects.select_for_update().get(pk=batch_id)
    if batch.kind != Solution.FIXER or batch.ended_at is not None:
        raise StoreRefused(_("Only a fixer that is still in use clears plates: choose that batch."))
    return ClearingTime.objects.create(batch=batch, seconds=seconds, operator=operator, at=now)


@transaction.atomic
def set_fire_limit(*, millilitres: int | None) -> StoreRoom:
    """Keep the studio's own figure of how much ether and alcohol may stand in it; None: no figure."""
    room, _made = StoreRoom.objects.select_for_update().get_or_create(pk=1)
    room.fire_limit_ml = millilitres
    room.save(update_fields=["fire_limit_ml"])
    return room
