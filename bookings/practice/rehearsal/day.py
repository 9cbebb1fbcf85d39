"""The day itself, plate by plate at the planned minutes, with one plate spoilt and made again."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta

from django.core.management import call_command

from bookings import drain as due
from bookings.diary.models import SittingDay, Venue
from bookings.diary.services import Hours, open_day
from bookings.handover.services import pickup
from bookings.invoices.models import Invoice
from bookings.invoices.services import issuing as invoices
from bookings.orders.models import Order
from bookings.orders.selectors.account import account
from bookings.payments.models import Method
from bookings.payments.services import ledger as payments
from bookings.practice.rehearsal.selling import Sold, sell_out
from plates.bench.models import Bench, Plate, PlateSlot, SpoiltReason, Stage
from plates.capacity import PlatePlan
from plates.ledger.services import events as ledger

ON = date(2026, 6, 20)
BOOKED_AT = datetime(2026, 6, 10, 9, 0, tzinfo=UTC)
HOURS = Hours(opens=time(10), closes=time(18), racks_empty_by=time(19, 15))
SPOILT_SITTING = 2  # the third sitter of the day


@dataclass(frozen=True, slots=True)
class Rehearsal:
    """What the day left behind."""

    day: SittingDay
    sold: Sold
    spoilt: list[Plate]
    invoices: list[Invoice]
    letters: int
    ended_at: datetime


def play(*, when_ready: Callable[[Order, datetime], None], hours: Hours = HOURS) -> Rehearsal:
    """Play the whole day on the database at hand, which must be empty and migrated.

    The day must be long enough for three sittings. `when_ready` is called once, for the first order, when its plates
    are on the rack and its balance is owed.
    """
    call_command("loaddata", "sizes", "demo", verbosity=0)
    day = open_day(venue=Venue.objects.get(pk=1), bench=Bench.objects.get(pk=1), on=ON, hours=hours)
    sold = sell_out(day, BOOKED_AT)
    letters = due.drain(now=BOOKED_AT + timedelta(days=1))
    for position, order in enumerate(
        sorted(sold.orders, key=lambda order: order.sitting.bench_job.starts_at)
    ):
        _sit(order, spoil=position == SPOILT_SITTING)
    finished_at = day.bench_day.racks_empty_by + timedelta(days=2)
    for order in sold.orders:
        _finish(order, finished_at)
    letters += due.drain(now=finished_at)
    when_ready(sold.orders[0], finished_at)
    collected_at = finished_at + timedelta(days=3)
    issued = [_collect(order, collected_at) for order in sold.orders]
    return Rehearsal(
        day=day,
        sold=sold,
        spoilt=list(Plate.objects.filter(stage=Stage.SPOILT)),
        invoices=issued,
        letters=letters,
        ended_at=collected_at,
    )


def _sit(order: Order, *, spoil: bool) -> None:
    job = order.sitting.bench_job
    plans = job.as_booked().plan.plates
    for place, (slot, plan) in enumerate(zip(job.slots.order_by("position"), plans, strict=True)):
        if spoil and place == 0:
            _spoil_one(slot, plan)
        _make(slot, plan)


def _make(slot: PlateSlot, plan: PlatePlan) -> None:
    """Make one plate at the minutes it was planned for."""
    at = slot.job.day.instant
    plate = ledger.pour(slot_id=slot.pk, operator=None, now=at(plan.pour))
    for stage, minute in (
        (Stage.SENSITISED, plan.tank_out),
        (Stage.EXPOSED, plan.expose),
        (Stage.DEVELOPED, plan.develop),
        (Stage.FIXED, plan.fix),
        (Stage.WASHING, plan.wash_in),
        (Stage.DRYING, plan.lift),
    ):
        ledger.record_stage(plate_id=plate.pk, stage=stage, operator=None, now=at(minute))


def _spoil_one(slot: PlateSlot, plan: PlatePlan) -> None:
    at = slot.job.day.instant
    plate = ledger.pour(slot_id=slot.pk, operator=None, now=at(plan.pour))
    for stage, minute in ((Stage.SENSITISED, plan.tank_out), (Stage.EXPOSED, plan.expose)):
        ledger.record_stage(plate_id=plate.pk, stage=stage, operator=None, now=at(minute))
    ledger.spoil(
        plate_id=plate.pk, reason=SpoiltReason.FOGGED, note="light leak", operator=None, now=at(plan.develop)
    )


def _live(order: Order) -> list[Plate]:
    found = Plate.objects.filter(slot__job=order.sitting.bench_job).exclude(stage=Stage.SPOILT)
    return list(found.order_by("number"))


def _finish(order: Order, now: datetime) -> None:
    for plate in _live(order):
        for hour, stage in enumerate((Stage.VARNISHED, Stage.READY)):
            when = now - timedelta(hours=24 - 12 * hour)
            ledger.record_stage(plate_id=plate.pk, stage=stage, operator=None, now=when)


def _collect(order: Order, now: datetime) -> Invoice:
    """Pay the balance, take the invoice, take the plates."""
    payments.record(
        order_id=order.pk,
        amount=account(order).owed,
        method=Method.TERMINAL,
        reference=f"balance {order.reference}",
        now=now,
    )
    invoice = invoices.issue(order_id=order.pk, now=now)
    for plate in _live(order):
        pickup.move_on(plate_id=plate.pk, stage=Stage.HANDED_OVER, operator=None, now=now)
    return invoice
