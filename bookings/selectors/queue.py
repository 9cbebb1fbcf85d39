"""The day's queue: who sits when, and where each plate is. Nothing here writes."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from django.db.models import OuterRef, Subquery

from bookings.formats import clock
from bookings.models import Consent, ConsentPurpose, Order, Sitting, SittingDay
from bookings.selectors.orders import Account, account
from bookings.services.arrivals import can_be_taken_back
from plates.models import BenchDay, BenchJob, Plate, PlateSlot, SpoiltReason, Stage
from plates.selectors import ledger
from plates.services.ledger import NEXT_STAGE
from plates.services.undo import UNDO_FOR


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


@dataclass(frozen=True, slots=True)
class QueueRow:
    """One sitting of the day, its start on the venue's clock."""

    sitting: Sitting
    order: Order
    starts_at: datetime
    confirmed: bool
    lapsed: bool
    account: Account
    show_consent: bool
    plates: list[QueuePlate]
    minutes_late: int
    reversible: bool

    @property
    def attendance(self) -> str:
        """Where the sitter is: "sat", "arrived", "absent", or "expected"."""
        if self.sitting.sat_at is not None:
            return "sat"
        if self.sitting.arrived_at is not None:
            return "arrived"
        return "absent" if self.sitting.absent_at is not None else "expected"

    @property
    def label(self) -> str:
        """What the drawing of the day calls this sitting; a short bar shows only the first word."""
        return f"{clock(self.starts_at)} {self.order.client or self.order.reference}"

    @property
    def finished(self) -> bool:
        return all(plate.live is not None and plate.live.stage == Stage.HANDED_OVER for plate in self.plates)


def day_queue(*, day: SittingDay, now: datetime) -> list[QueueRow]:
    """The sittings that count on a day in promised order; the same few queries for any number of plates."""
    found = Sitting.objects.filter(day=day, order__cancelled_at__isnull=True, order__placed_at__isnull=False)
    answers = Consent.objects.filter(client=OuterRef("order__client"), purpose=ConsentPurpose.SHOW)
    whole = (
        found.select_related("bench_job", "order__client", "order__terms")
        .prefetch_related("order__lines", "order__payments")
        .annotate(shown=Subquery(answers.order_by("-id").values("given")[:1]))
    )
    sittings = [sitting for sitting in whole if _expected(sitting.bench_job, now)]
    slots = ledger.slots_of(job_ids=[sitting.bench_job_id for sitting in sittings])
    return [
        _row(day, sitting, slots[sitting.bench_job_id], show_consent=bool(sitting.shown), now=now)
        for sitting in sittings
    ]


def plates_of(sitting: Sitting) -> list[QueuePlate]:
    """The promised plates of one sitting."""
    slots = ledger.slots_of(job_ids=[sitting.bench_job_id])
    return [_plate(slot) for slot in slots[sitting.bench_job_id]]


def day_on(*, now: datetime) -> SittingDay | None:
    """The sitting day at hand: the one that is not over yet and opens soonest, else the last there was."""
    days = SittingDay.objects.select_related("venue", "bench_day__bench__largest_size")
    ahead = days.filter(bench_day__racks_empty_by__gt=now).order_by("bench_day__opens_at").first()
    return ahead or days.order_by("-bench_day__opens_at").first()


def _row(
    day: SittingDay, sitting: Sitting, slots: list[PlateSlot], *, show_consent: bool, now: datetime
) -> QueueRow:
    order = sitting.order
    return QueueRow(
        sitting=sitting,
        order=order,
        starts_at=day.local(sitting.bench_job.starts_at),
        confirmed=sitting.bench_job.confirmed_at is not None,
        lapsed=not sitting.bench_job.counts(now),
        account=account(order),
        show_consent=show_consent,
        minutes_late=max(0, (now - sitting.bench_job.starts_at) // timedelta(minutes=1)),
        reversible=can_be_taken_back(sitting=sitting, now=now),
        plates=[_plate(slot, day.bench_day, now) for slot in slots],
    )


def _expected(job: BenchJob, now: datetime) -> bool:
    """Whether the sitter may stand at the door: the place counts, or its time came before the deposit did."""
    unpaid = job.released_at is None and job.held_until == job.starts_at <= now
    return job.counts(now) or unpaid


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
