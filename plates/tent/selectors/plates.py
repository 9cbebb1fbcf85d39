"""The promised plates of a day as the dark tent knows them: numbers, sizes and times."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop

from plates.bench.models import BenchDay, BenchJob, Plate, Stage
from plates.bench.selectors import plates_made
from plates.bench.stages import NEXT_STAGE, PRESSES
from plates.schedule.selectors.openings import promised_jobs

# From the rack on a plate is varnished, finished and handed over in the light, by the queue.
LAST = Stage.DRYING
WET = (Stage.POURED, Stage.SENSITISED, Stage.EXPOSED, Stage.DEVELOPED, Stage.FIXED)

# The stage that follows each stage, and what is called out for it; "" is a plate not poured yet.
STEPS: dict[str, tuple[str, str]] = {
    "": (Stage.POURED, PRESSES[Stage.POURED]),
    Stage.SPOILT: (Stage.POURED, gettext_noop("Pour again")),
    **{
        stage: (following, PRESSES[following])
        for stage, following in NEXT_STAGE.items()
        if stage in WET or following == LAST
    },
}


def steps() -> dict[str, tuple[str, str]]:
    """STEPS in the language that is spoken."""
    return {stage: (following, _(word)) for stage, (following, word) in STEPS.items()}


@dataclass(frozen=True, slots=True)
class TentPlate:
    """One promised plate: `events` are the stages that hold of the plate now being made for it, oldest first.

    `pour` is the key of the press with which it was poured, by which a telephone knows it before its number;
    `again` the numbers of the plates spoilt for it before.
    """

    slot: int
    size: str
    place: str
    planned: datetime
    number: int | None
    pour: UUID | None
    events: tuple[tuple[str, datetime], ...]
    again: tuple[int, ...]

    @property
    def stage(self) -> str:
        return self.events[-1][0] if self.events else ""

    @property
    def stage_word(self) -> str:
        return str(Stage(self.stage).label) if self.stage else _("Not poured")

    @property
    def name(self) -> str:
        """Its number once it is poured."""
        poured = self.number is not None and self.stage != Stage.SPOILT
        return _("Plate {number}").format(number=self.number) if poured else _("To pour")

    @property
    def step(self) -> tuple[str, str] | None:
        """The stage that follows, and what is called out for it; None from the rack on."""
        return steps().get(self.stage)

    def as_json(self) -> dict[str, object]:
        """Plain values; instants in milliseconds since 1970."""
        return {
            "slot": self.slot,
            "size": self.size,
            "place": self.place,
            "planned": milliseconds(self.planned),
            "number": self.number,
            "pour": str(self.pour) if self.pour else None,
            "events": [[stage, milliseconds(at)] for stage, at in self.events],
            "again": list(self.again),
        }


def tent_plates(*, day: BenchDay, now: datetime) -> list[TentPlate]:
    """Every plate promised on `day`, earliest pour first; the same few queries for any number of plates."""
    jobs = promised_jobs(day=day, now=now)
    again = {job.retake_of.slot_id: job for job in jobs if job.retake_of is not None}
    made = plates_made(slot_ids=[slot.pk for job in jobs for slot in job.slots.all()])
    found = [plate for job in jobs for plate in _plates_of(job, made, again)]
    return sorted(found, key=lambda plate: (plate.planned, plate.slot))


def milliseconds(instant: datetime) -> int:
    """Since 1970, rounded down."""
    return int(instant.timestamp() * 1000)


def _plates_of(
    job: BenchJob, made: Mapping[int, list[Plate]], again: Mapping[int, BenchJob]
) -> list[TentPlate]:
    slots = list(job.slots.all())
    found = []
    for place, (slot, planned) in enumerate(zip(slots, job.as_booked().plan.plates, strict=False), start=1):
        if slot.given_up_at is not None:
            continue
        *before, newest = [None, *made[slot.pk]]
        at = job.day.instant(planned.pour)
        if newest is not None and newest.stage == Stage.SPOILT and slot.pk in again:
            at = again[slot.pk].starts_at
        events = list(newest.events.all()) if newest else []
        found.append(
            TentPlate(
                slot=slot.pk,
                size=slot.size.name,
                place=_("{place} of {number}").format(place=place, number=len(slots)),
                planned=at,
                number=newest.number if newest else None,
                pour=events[0].press if events else None,
                events=tuple((event.stage, event.at) for event in events),
                again=tuple(plate.number for plate in [*before, newest] if plate and plate.spoilt_reason),
            )
        )
    return found
