"""Another time for a sitting, or none."""

from datetime import UTC, date, datetime, time, timedelta

import pytest

from bookings.changes.services import sittings
from bookings.errors import OrderCancelled
from bookings.orders.models import Order, Sitting
from bookings.orders.selectors.account import OrderStatus, order_status
from bookings.outbox.models import Notice
from bookings.payments.models import Payment
from plates.bench.models import PlateSlot
from plates.errors import BenchFull, BenchPromised, JobReleased
from plates.ledger.services import events as ledger
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
NOON = TEN + timedelta(hours=2)
LAPSED = NOW + timedelta(hours=48)


@pytest.fixture
def day():
    """A day of a bench with hands enough and room for one sitter, so that no two begin at once."""
    return builders.a_day(bench=builders.a_bench(operators=2, tank_places=2, sitters_at_once=1))


def moved(order, day, starts_at, *, now=NOW):
    return sittings.move(order_id=order.pk, day_id=day.pk, starts_at=starts_at, now=now)


def job_of(order):
    return Sitting.objects.get(order=order).bench_job


def letters(order):
    return list(Notice.objects.filter(order=order).order_by("id").values_list("kind", "occasion"))


def test_a_promised_sitting_moves_and_the_client_is_told_the_new_time(day):
    order = builders.a_paid_order(day)

    sitting = moved(order, day, NOON)

    assert (sitting.bench_job.starts_at, sitting.calendar_sequence) == (NOON, 1)
    assert job_of(order).confirmed_at == NOW
    assert letters(order) == [("deposit_due", ""), ("confirmed", "0"), ("confirmed", "1")]


def test_each_further_move_is_another_letter(day):
    order = builders.a_paid_order(day)
    moved(order, day, NOON)

    moved(order, day, TEN)

    assert letters(order)[-2:] == [("confirmed", "1"), ("confirmed", "2")]


def test_a_sitting_moves_to_another_day(day):
    order = builders.a_paid_order(day)
    sunday = builders.a_day(on=date(2026, 11, 29), bench=day.bench_day.bench)

    sitting = moved(order, sunday, TEN + timedelta(days=1))

    assert (sitting.day, sitting.bench_job.day) == (sunday, sunday.bench_day)


def test_a_refunded_but_promised_sitting_stays_promised_at_its_new_time(day):
    order = builders.a_paid_order(day)
    builders.pay(order, -4250)

    moved(order, day, NOON)

    assert letters(order)[-1] == ("confirmed", "1")
    assert order_status(Order.objects.get(pk=order.pk), now=NOW) == OrderStatus.PROMISED


def test_a_paid_order_that_lost_its_place_is_promised_at_its_new_time(day):
    order = builders.a_placed_order(day)
    builders.a_paid_order(day, now=LAPSED)
    builders.pay(order, 4250, now=LAPSED)
    assert Order.objects.get(pk=order.pk).needs_new_time

    moved(order, day, NOON, now=LAPSED)

    assert order_status(Order.objects.get(pk=order.pk), now=LAPSED) == OrderStatus.PROMISED
    assert not Order.objects.get(pk=order.pk).needs_new_time
    assert letters(order) == [("deposit_due", ""), ("new_time", ""), ("confirmed", "1")]


@pytest.mark.parametrize("now", [NOW, LAPSED])
def test_an_unpaid_order_is_held_anew_at_its_new_time_and_the_client_is_told(day, now):
    order = builders.a_placed_order(day)

    moved(order, day, NOON, now=now)

    assert job_of(order).held_until == now + timedelta(hours=48)
    assert order_status(Order.objects.get(pk=order.pk), now=now) == OrderStatus.HELD
    with pytest.raises(BenchFull):
        builders.a_held_order(day, at=time(12), now=now)
    assert letters(order) == [("deposit_due", ""), ("deposit_due", "1")]


def test_a_held_order_without_a_name_moves_without_a_letter(day):
    order = builders.a_held_order(day)

    moved(order, day, NOON)

    assert job_of(order).starts_at == NOON
    assert letters(order) == []


def test_a_move_to_a_taken_time_changes_nothing(day):
    builders.a_paid_order(day, at=time(12))
    order = builders.a_paid_order(day)

    with pytest.raises(BenchFull, match=r"^The room is full of sitters from 12:00"):
        moved(order, day, NOON)

    sitting = Sitting.objects.get(order=order)
    assert (sitting.bench_job.starts_at, sitting.calendar_sequence) == (TEN, 0)
    assert letters(order)[-1] == ("confirmed", "0")


def test_a_cancelled_sitting_does_not_move(day):
    order = builders.a_paid_order(day)
    sittings.cancel(order_id=order.pk, now=NOW)

    with pytest.raises((JobReleased, OrderCancelled), match=r"[Bb]ook a new sitting instead"):
        moved(order, day, NOON)


def test_cancelling_gives_the_place_back_and_the_client_is_told(day):
    order = builders.a_paid_order(day)

    sittings.cancel(order_id=order.pk, now=NOW)

    assert Order.objects.get(pk=order.pk).cancelled_at == NOW
    assert job_of(order).released_at == NOW
    assert Sitting.objects.get(order=order).calendar_sequence == 1
    assert letters(order)[-1] == ("cancelled", "")
    builders.a_held_order(day)


def test_cancelling_refunds_nothing_by_itself(day):
    order = builders.a_paid_order(day)

    sittings.cancel(order_id=order.pk, now=NOW)

    assert list(Payment.objects.values_list("amount", flat=True)) == [4250]


def test_cancelling_twice_is_one_cancellation(day):
    order = builders.a_paid_order(day)
    sittings.cancel(order_id=order.pk, now=NOW)

    sittings.cancel(order_id=order.pk, now=NOW + timedelta(hours=1))

    assert Order.objects.get(pk=order.pk).cancelled_at == NOW
    assert Sitting.objects.get(order=order).calendar_sequence == 1
    assert letters(order).count(("cancelled", "")) == 1


def test_a_hold_without_a_name_is_cancelled_without_a_letter(day):
    order = builders.a_held_order(day)

    sittings.cancel(order_id=order.pk, now=NOW)

    assert letters(order) == []


@pytest.fixture
def begun(day):
    """An order whose first plate has been poured."""
    order = builders.a_paid_order(day)
    slot = PlateSlot.objects.get(job=order.sitting.bench_job_id)
    ledger.pour(slot_id=slot.pk, operator=None, now=TEN)
    return order


def test_a_sitting_that_was_begun_is_not_moved(day, begun):
    with pytest.raises(BenchPromised, match=r"^A plate of this sitting has been poured"):
        moved(begun, day, NOON, now=TEN)

    assert job_of(begun).starts_at == TEN


def test_a_sitting_that_was_begun_is_not_cancelled(begun):
    with pytest.raises(BenchPromised, match=r"^A plate of this sitting has been poured"):
        sittings.cancel(order_id=begun.pk, now=TEN)

    assert Order.objects.get(pk=begun.pk).cancelled_at is None
    assert job_of(begun).released_at is None
