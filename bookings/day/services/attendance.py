"""Attendance: a sitter has arrived, has sat or did not come. A mark can be undone for a few minutes."""

from collections.abc import Callable
from datetime import datetime

from django.db import models, transaction
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bookings.day.selectors.queue import REVERSIBLE_FOR, newest_mark
from bookings.day.services import lateness
from bookings.errors import MarkRefused
from bookings.orders.models import Sitting


class Mark(models.TextChoices):
    """What can be said of a sitter, in the words of the buttons."""

    ARRIVED = "arrived", gettext_lazy("Arrived")
    SAT = "sat", gettext_lazy("Has sat")
    ABSENT = "absent", gettext_lazy("Did not come")


def mark(*, sitting_id: int, as_: str, now: datetime) -> Sitting:
    """Mark a sitter as arrived, as having sat or as absent. The same mark twice keeps its first time.

    A sitter given up frees minutes at once, and one who comes after all takes them again. MarkRefused when it
    contradicts what is marked already: who has arrived cannot be absent.
    """
    return _with_new_times(_marked, sitting_id, now, as_=as_)


def undo_mark(*, sitting_id: int, now: datetime) -> Sitting:
    """Undo the newest mark, within a few minutes of it; MarkRefused later, or when nothing is marked."""
    return _with_new_times(_undone, sitting_id, now)


def _with_new_times(change: Callable[..., Sitting], sitting_id: int, now: datetime, **how: str) -> Sitting:
    """Make the change; where it says anew whether the sitter comes, the day's times follow."""
    before = Sitting.objects.get(pk=sitting_id).absent_at
    sitting = change(sitting_id, now, **how)
    if sitting.absent_at != before:
        lateness.expect_while_at_work(day=sitting.day, now=now)
    return sitting


@transaction.atomic
def _marked(sitting_id: int, now: datetime, *, as_: str) -> Sitting:
    sitting = Sitting.objects.select_for_update(of=("self",)).get(pk=sitting_id)
    if as_ == Mark.ARRIVED:
        # Whoever was given up and comes after all is here.
        sitting.absent_at = None
        sitting.arrived_at = sitting.arrived_at or now
    elif as_ == Mark.SAT:
        _refuse_absent(sitting)
        sitting.arrived_at = sitting.arrived_at or now
        sitting.sat_at = sitting.sat_at or now
    elif as_ == Mark.ABSENT:
        if sitting.arrived_at is not None:
            raise MarkRefused(_("This sitter has arrived. Take that mark back first, if it was a mistake."))
        sitting.absent_at = sitting.absent_at or now
    else:
        raise MarkRefused(_("A sitter has arrived, has sat, or did not come."))
    sitting.save(update_fields=["arrived_at", "sat_at", "absent_at"])
    return sitting


@transaction.atomic
def _undone(sitting_id: int, now: datetime) -> Sitting:
    sitting = Sitting.objects.select_for_update(of=("self",)).get(pk=sitting_id)
    newest = newest_mark(sitting)
    if newest is None:
        raise MarkRefused(_("Nothing is marked for this sitter."))
    name, at = newest
    if not at <= now <= at + REVERSIBLE_FOR:
        minutes = REVERSIBLE_FOR.seconds // 60
        raise MarkRefused(
            _("A mark can be taken back for {minutes} minutes; that time is over.").format(minutes=minutes)
        )
    setattr(sitting, name, None)
    sitting.save(update_fields=[name])
    return sitting


def _refuse_absent(sitting: Sitting) -> None:
    if sitting.absent_at is not None:
        raise MarkRefused(_("This sitter is marked as not come. Mark the arrival first."))
