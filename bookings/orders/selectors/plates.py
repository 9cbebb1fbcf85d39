"""The plates of a sitting: which is being made, which were spoilt."""

from dataclasses import dataclass
from datetime import datetime

from bookings.orders.models import Sitting
from plates.bench import selectors as ledger
from plates.bench.models import BenchDay, Plate, PlateSlot, SpoiltReason, Stage
from plates.bench.stages import NEXT_STAGE, UNDO_FOR


@dataclass(frozen=True, slots=True)
class QueuePlate:
    """One promised plate: the one being made for it, the spoilt ones before, and the next press.

    A spoilt one is made again from `retake_at`; `squeezed`: no room was found for it beside today's promises.
    `back`: the plate whose newest press can still be taken back.
    """

    slot: PlateSlot
    live: Plate | None
    spoilt: list[Plate]
    next_stage: Stage | None
    retake_at: datetime | None = None
    squeezed: bool = False
    back: Plate | None = None


def plates_of(sitting: Sitting) -> list[QueuePlate]:
    """The promised plates of one sitting."""
    slots = ledger.slots_of(job_ids=[sitting.bench_job_id])
    return [_plate(slot) for slot in slots[sitting.bench_job_id]]


def _plate(slot: PlateSlot, day: BenchDay | None = None, now: datetime | None = None) -> QueuePlate:
    live = ledger.live_plate(slot)
    given_up = [plate for plate in slot.plates.all() if plate.stage == Stage.SPOILT]
    spoilt = [plate for plate in given_up if plate.spoilt_reason != SpoiltReason.MISTAKE]
    retake_at = ledger.retake_at(spoilt[-1]) if spoilt and live is None else None
    at_work = day is not None and now is not None and day.opens_at <= now < day.closes_at
    newest = live or (spoilt[-1] if spoilt else None)
    return QueuePlate(
        slot=slot,
        live=live,
        spoilt=spoilt,
        next_stage=NEXT_STAGE.get(live.stage) if live else Stage.POURED,
        retake_at=retake_at,
        squeezed=bool(spoilt) and live is None and retake_at is None and at_work,
        back=newest if newest and now and newest.stage_at <= now <= newest.stage_at + UNDO_FOR else None,
    )
