"""Who is here, who has sat, who did not come: marks on a sitting that can be taken back for a few minutes."""

from datetime import datetime, timedelta

from django.db import models, transaction
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bookings.errors import MarkRefused
from bookings.orders.models import Sitting

REVERSIBLE_FOR = timedelta(minutes=5)


class Mark(models.TextChoices):
    """What can be said of a sitter, in the words of the buttons."""

    ARRIVED = "arrived", gettext_lazy("Arrived")
    SAT = "sat", gettext_lazy("Has sat")
    ABSENT = "absent", gettext_lazy("Did not come")


@transaction.atomic
def mark(*, sitting_id: int, as_: str, now: datetime) -> Sitting:
    """Say that a sitter has arrived, has sat or did not come. The same mark twice keeps its first time.

    MarkRefused when it contradicts what is marked already: somebody who has arrived cannot not have come.
    """
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
def take_back(*, sitting_id: int, now: datetime) -> Sitting:
    """Take the newest mark back, within a few minutes of it; MarkRefused later, or when nothing is marked."""
    sitting = Sitting.objects.select_for_update(of=("self",)).get(pk=sitting_id)
    newest = _newest_mark(sitting)
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


def can_be_taken_back(*, sitting: Sitting, now: datetime) -> bool:
    """Whether the sitter has a mark so new that it can still be taken back."""
    newest = _newest_mark(sitting)
    return newest is not None and newest[1] <= now <= newest[1] + REVERSIBLE_FOR


def _newest_mark(sitting: Sitting) -> tuple[str, datetime] | None:
    """The field of the newest mark with its time. Sitting comes after arriving, also at the same moment."""
    for name in ("absent_at", "sat_at", "arrived_at"):
        at: datetime | None = getattr(sitting, name)
        if at is not None:
            return name, at
    return None


def _refuse_absent(sitting: Sitting) -> None:
    if sitting.absent_at is not None:
        raise MarkRefused(_("This sitter is marked as not come. Mark the arrival first."))
