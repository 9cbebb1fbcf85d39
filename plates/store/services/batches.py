"""What becomes of a batch: opened, taken from, measured, ended. What was mixed is never changed."""

from datetime import date, datetime

from django.contrib.auth.models import User
from django.db import transaction
from django.utils.translation import gettext as _

from plates.common.dates import ONE_PRESS
from plates.errors import StoreRefused
from plates.store.models import Batch, BatchEvent


@transaction.atomic
def move(
    *, batch_id: int, kind: str, amount_ul: int, operator: User | None, now: datetime, note: str = ""
) -> BatchEvent:
    """Write down what was taken out of a batch, put to it, or found in it; the same twice at once is one press."""
    batch = _locked(batch_id)
    pressed = batch.events.filter(kind=kind, amount_ul=amount_ul, operator=operator, note=note)
    if again := pressed.filter(at__gt=now - ONE_PRESS, at__lte=now).first():
        return again
    return BatchEvent.objects.create(
        batch=batch, kind=kind, amount_ul=amount_ul, at=now, operator=operator, note=note
    )


@transaction.atomic
def set_days(*, batch_id: int, ripe_from: date, best_before: date | None, opened_on: date | None) -> Batch:
    """Say anew from when a batch is ripe, until when it is at its best, and when it was opened."""
    batch = _locked(batch_id)
    if ripe_from < batch.mixed_on or (opened_on and opened_on < batch.mixed_on):
        raise StoreRefused(
            _("A batch is ripe, and opened, on the day it was mixed or later: look at the days.")
        )
    if best_before and best_before <= ripe_from:
        raise StoreRefused(_("A batch is past its best after it is ripe: look at the days."))
    batch.ripe_from, batch.best_before, batch.opened_on = ripe_from, best_before, opened_on
    batch.save(update_fields=["ripe_from", "best_before", "opened_on"])
    return batch


@transaction.atomic
def end(*, batch_id: int, why: str, now: datetime) -> Batch:
    """Say that a batch is no more: used up, or to the waste."""
    batch = _locked(batch_id)
    batch.ended_at, batch.ended_why = max(now, batch.mixed_at), why
    batch.save(update_fields=["ended_at", "ended_why"])
    return batch


def _locked(batch_id: int) -> Batch:
    """The row of a batch that is still there. StoreRefused when it has ended."""
    batch = Batch.objects.select_for_update(of=("self",)).get(pk=batch_id)
    if batch.ended_at is not None:
        ended = _("%(label)s ended on %(day)s: nothing can be written down for it any more.")
        raise StoreRefused(ended % {"label": batch.label, "day": f"{batch.ended_at:%Y-%m-%d}"})
    return batch
