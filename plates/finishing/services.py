"""Many plates brought on by one press, on a quiet morning; and the days on which the studio is closed."""

from collections.abc import Collection, Mapping
from datetime import date, datetime, timedelta
from uuid import UUID, uuid5

from django.contrib.auth.models import User
from django.db import transaction
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from plates.bench.models import Plate, Stage
from plates.errors import NotDry, StageOutOfOrder
from plates.finishing.models import ClosedDay
from plates.finishing.selectors.rack import the_finishing
from plates.ledger.services import events as ledger

MINUTE = timedelta(minutes=1)
# What is done in batches, and the stage that a plate must be at for it.
BATCHES: dict[str, Stage] = {Stage.VARNISHED: Stage.DRYING, Stage.READY: Stage.VARNISHED}


@transaction.atomic
def bring_on(
    *, plate_ids: Collection[int], stage: str, press: UUID, operator: User | None, now: datetime
) -> list[Plate]:
    """Bring plates on to varnished or ready, all of them or none; the same press twice does it once.

    NotDry names those that have not lain as long as the studio says they must; StageOutOfOrder for one that is
    elsewhere by now.
    """
    if stage not in BATCHES:
        raise StageOutOfOrder(
            _("Plates are varnished or packed in batches; any other step is pressed one by one.")
        )
    plates = [ledger.locked(plate_id=plate_id) for plate_id in sorted(set(plate_ids))]
    _refuse_fresh(plates, stage, now)
    return [
        ledger.record_stage(
            plate_id=plate.pk,
            stage=stage,
            operator=operator,
            now=now,
            press=uuid5(press, f"{stage} {plate.pk}"),
        )
        for plate in plates
    ]


@transaction.atomic
def close(*, days: Mapping[date, str]) -> None:
    """Close the studio on these dates, each with why; one that is closed already stays as it was."""
    for on, why in sorted(days.items()):
        ClosedDay.objects.get_or_create(on=on, defaults={"why": why[:80]})


@transaction.atomic
def open_again(*, closed_day_id: int) -> None:
    """Work on that date after all; safe twice."""
    ClosedDay.objects.filter(pk=closed_day_id).delete()


def _refuse_fresh(plates: Collection[Plate], stage: str, now: datetime) -> None:
    finishing = the_finishing()
    least = (finishing.dry_least if stage == Stage.VARNISHED else finishing.cure_least) * MINUTE
    fresh = [
        _("plate {number} ({lain})").format(number=plate.number, lain=_lain(now - plate.stage_at))
        for plate in plates
        if plate.stage == BATCHES[stage] and now - plate.stage_at < least
    ]
    if not fresh:
        return
    words = {"plates": ", ".join(fresh), "least": _lain(least)}
    if stage == Stage.READY:
        raise NotDry(
            _("Not cured yet: {plates}. The shortest time for it is {least}, so nothing was changed.").format(
                **words
            )
        )
    raise NotDry(
        _(
            "Not dry yet: {plates}. The shortest time for it is {least}, so nothing was changed. A plate that was "
            "dried by heat is pressed on by itself, in the queue."
        ).format(**words)
    )


def _lain(time: timedelta) -> str:
    minutes = max(0, time // MINUTE)
    if minutes < 120:
        return ngettext("{minutes} minute", "{minutes} minutes", minutes).format(minutes=minutes)
    return _("{hours} hours").format(hours=minutes // 60)
