"""Looking through every plate that was ever poured.

The day of a plate is the date of its sitting at the venue, which is how a plate is remembered and needs no time zone.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime

from django.core.files.storage import storages
from django.db.models import Count, Min, Q, QuerySet
from django.utils.translation import gettext

from plates.bench.models import Plate, PlateFacts, PlateSize, SpoiltReason, Stage
from plates.bench.selectors import facts_of
from plates.ledger import spoilage
from plates.ledger.pictures import STORE

HEADERS = (
    "number", "size", "width_mm", "height_mm", "day", "poured_at", "stage", "stage_at", "spoilt_reason", "batch",
    "bath", "bath_seconds", "exposure_seconds", "lens", "developer_seconds", "notes", "picture", "facts_changed_at",
)  # fmt: skip
AT_ONCE = 500  # rows held in memory while a file is written


@dataclass(frozen=True, slots=True)
class Wanted:
    """Which plates are looked for; whatever is empty or None does not matter."""

    number: int | None = None
    size: PlateSize | None = None
    stage: str = ""
    reason: str = ""
    since: date | None = None
    until: date | None = None
    batch: str = ""
    bath: str = ""


def plates(*, wanted: Wanted) -> QuerySet[Plate]:
    """The plates that are wanted, newest first, with size, day and facts at hand.

    A number that was given out by a wrong press is no plate: it is shown to whoever asks for it by number or reason.
    """
    found = _like(wanted).select_related("size", "slot__job__day", "facts").order_by("-number")
    if wanted.number is not None:
        found = found.filter(number=wanted.number)
    if wanted.stage:
        found = found.filter(stage=wanted.stage)
    if wanted.reason:
        found = found.filter(spoilt_reason=wanted.reason)
    if wanted.number is None and wanted.reason != SpoiltReason.MISTAKE:
        found = found.exclude(spoilt_reason=SpoiltReason.MISTAKE)
    return found


def spoilt(*, wanted: Wanted) -> spoilage.Spoilage:
    """Why plates were given up, among all of the wanted size, days, batch and bath, whatever became of them."""
    poured = _like(wanted).exclude(spoilt_reason=SpoiltReason.MISTAKE).order_by()
    counts = dict(poured.values_list("spoilt_reason").annotate(many=Count("pk")))
    named = {str(reason.label): counts.get(reason.value, 0) for reason in SpoiltReason}
    return spoilage.lay_out(named, poured=sum(counts.values()), say=gettext)


def table(*, wanted: Wanted) -> Iterator[tuple[object, ...]]:
    """A row of names, then a row for each plate that is wanted; instants in UTC as ISO 8601."""
    yield HEADERS
    poured = Min("events__at", filter=Q(events__stage=Stage.POURED, events__undoes__isnull=True))
    for plate in plates(wanted=wanted).annotate(poured_at=poured).iterator(chunk_size=AT_ONCE):
        yield (
            plate.number,
            plate.size.name,
            plate.size.width_mm,
            plate.size.height_mm,
            plate.slot.job.day.on,
            _instant(plate.poured_at),
            plate.stage,
            _instant(plate.stage_at),
            plate.spoilt_reason,
            *_noted(getattr(plate, "facts", None)),  # the row is missing where nothing was noted
        )


def _like(wanted: Wanted) -> QuerySet[Plate]:
    found = Plate.objects.all()
    if wanted.size is not None:
        found = found.filter(size=wanted.size)
    if wanted.since is not None:
        found = found.filter(slot__job__day__on__gte=wanted.since)
    if wanted.until is not None:
        found = found.filter(slot__job__day__on__lte=wanted.until)
    if wanted.batch:
        found = found.filter(facts__batch__icontains=wanted.batch)
    if wanted.bath:
        found = found.filter(facts__bath__icontains=wanted.bath)
    return found


def _noted(facts: PlateFacts | None) -> tuple[object, ...]:
    if facts is None:
        return ("", "", "", "", "", "", "", "no", "")
    return (
        facts.batch,
        facts.bath,
        facts.bath_seconds,
        facts.exposure_seconds,
        facts.lens,
        facts.developer_seconds,
        facts.notes,
        "yes" if facts.picture else "no",
        _instant(facts.changed_at),
    )


def _instant(at: datetime) -> str:
    return f"{at:%Y-%m-%dT%H:%M:%SZ}"


def picture_of(*, plate: Plate) -> bytes | None:
    """The kept JPEG of a plate; None when there is none, or its file has gone."""
    facts = facts_of(plate=plate)
    if facts is None or not facts.picture or not storages[STORE].exists(facts.picture):
        return None
    with storages[STORE].open(facts.picture) as kept:
        return bytes(kept.read())
