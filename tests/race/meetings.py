"""Two that meet at one moment: the first has done its part but not committed when the second begins.

The first commits once the second waits for a lock, or after a second in which it did not have to wait.
"""

import time as clock
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from functools import partial

from django.db import connection, transaction

from bookings.changes.services import sittings
from bookings.checkout.services import booking
from bookings.diary.models import SittingDay
from bookings.invoices.services import issuing as invoices
from bookings.orders.models import Order
from bookings.orders.services import placing
from bookings.payments.models import Method, Payment
from bookings.payments.services import ledger as payments
from plates.bench.models import BenchDay, BenchJob, Plate, PlateSlot
from plates.ledger.services import events as ledger
from plates.schedule.services import jobs as bench
from tests import builders
from tests.builders import NOW
from tests.race.layouts import World, problems_of, some_days, three_at_once
from tests.race.worker import Scene

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
LATER = NOW + timedelta(hours=1)
LOOKS = 20


class Meeting:
    """The first one's transaction, open between two acts."""

    def __init__(self, first: Callable[[], object]) -> None:
        self.first = first
        self.transaction = transaction.atomic()

    def begin(self) -> object:
        self.transaction.__enter__()
        return self.first()

    def commit_when_waited_for(self) -> bool:
        waited_for = any(self._somebody_waits() for _ in range(LOOKS))
        self.transaction.__exit__(None, None, None)
        return waited_for

    def _somebody_waits(self) -> bool:
        clock.sleep(0.05)
        if connection.vendor != "postgresql":
            return False  # SQLite does not tell who waits
        with connection.cursor() as cursor:
            cursor.execute("SELECT count(*) FROM pg_locks WHERE NOT granted")
            return bool(cursor.fetchone()[0])


def meeting(prepare, first, second, look) -> Scene:
    """A scene of two. `first(world)` and `second(world)` are what they do."""

    def acts(world: World, number: int):
        if number == 0:
            met = Meeting(partial(first, world))
            return [met.begin, met.commit_when_waited_for]
        return [lambda: None, partial(second, world)]

    return Scene(prepare, acts, look, contenders=2)


def _one_order() -> World:
    here, there = some_days(2, three_at_once())
    order = builders.a_held_order(here)
    slot = PlateSlot.objects.get()
    return {
        "order": order.pk,
        "job": slot.job_id,
        "slot": slot.pk,
        "here": here.pk,
        "there": there.pk,
        "bench_days": [here.bench_day_id, there.bench_day_id],
    }


def _placed() -> World:
    world = _one_order()
    _place(world)
    return world


def _two_placed() -> World:
    world = _placed()
    day = SittingDay.objects.get(pk=world["here"])
    return world | {"other": builders.a_placed_order(day).pk}


def _one_use_left() -> World:
    here, there = some_days(2, three_at_once())
    builders.a_discount(most_uses=1)
    builders.a_size()
    return {"here": here.pk, "there": there.pk}


def _hold_with_code(world: World, *, where: str) -> int:
    return builders.a_held_order(SittingDay.objects.get(pk=world[where]), code="HARBOUR10").pk


def _uses(world: World) -> int:
    return Order.objects.filter(lines__discount__isnull=False).count()


def _place(world: World) -> None:
    details = placing.Details(name="Ines Madrugada", email="ines@example.org", phone="", consents={})
    booking.place_order(order_id=world["order"], details=details, now=NOW)


def _pour(world: World) -> int:
    return ledger.pour(slot_id=world["slot"], operator=None, now=NOW).number


def _release(world: World) -> None:
    bench.release(job_id=world["job"], now=NOW)


def _move_away(world: World) -> None:
    _, there = world["bench_days"]
    bench.move(job_id=world["job"], day_id=there, starts_at=TEN + timedelta(days=1, hours=2), now=LATER)


def _pay(world: World, *, whose: str = "order") -> int:
    how = {"amount": 4250, "method": Method.CASH, "reference": "till 1", "now": NOW}
    return payments.record(order_id=world[whose], **how).order_id


def _state(world: World) -> World:
    job = BenchJob.objects.get(pk=world["job"])
    order = Order.objects.get(pk=world["order"])
    return {
        "day": world["bench_days"].index(job.day_id),
        "starts_at": job.starts_at.isoformat(),
        "confirmed": job.confirmed_at is not None,
        "released": job.released_at is not None,
        "placed": order.placed_at is not None,
        "cancelled": order.cancelled_at is not None,
        "plates": Plate.objects.count(),
        "paid": list(Payment.objects.values_list("amount", flat=True)),
        "versions": list(BenchDay.objects.order_by("pk").values_list("version", flat=True)),
        "problems": [*problems_of(world["here"]), *problems_of(world["there"])],
    }


def _invoice(world: World) -> tuple[int, int]:
    issued = invoices.issue(order_id=world["order"], now=NOW)
    return issued.prepaid, issued.due


def _confirm(world: World) -> None:
    bench.confirm(job_id=world["job"], now=LATER)


def _move_to_noon(world: World) -> None:
    here, _ = world["bench_days"]
    bench.move(job_id=world["job"], day_id=here, starts_at=TEN + timedelta(hours=2), now=LATER)


def _drop(world: World) -> None:
    booking.drop_hold(order_id=world["order"], now=NOW)


def _cancel(world: World) -> None:
    sittings.cancel(order_id=world["order"], now=NOW)


SCENES = {
    "release_then_pour": meeting(_one_order, _release, _pour, _state),
    "pour_then_release": meeting(_one_order, _pour, _release, _state),
    "move_then_confirm": meeting(_one_order, _move_away, _confirm, _state),
    "move_then_move": meeting(_one_order, _move_away, _move_to_noon, _state),
    "place_then_drop": meeting(_one_order, _place, _drop, _state),
    "drop_then_place": meeting(_one_order, _drop, _place, _state),
    "pay_then_cancel": meeting(_placed, _pay, _cancel, _state),
    "cancel_then_pay": meeting(_placed, _cancel, _pay, _state),
    "pay_then_invoice": meeting(_placed, _pay, _invoice, _state),
    "invoice_then_pay": meeting(_placed, _invoice, _pay, _state),
    "last_use_then_last_use": meeting(
        _one_use_left, partial(_hold_with_code, where="here"), partial(_hold_with_code, where="there"), _uses
    ),
    "pay_then_other_pays": meeting(_two_placed, _pay, partial(_pay, whose="other"), _state),
}
