"""The payment ledger: money that came is always kept, and only then is it seen what it pays for."""

from datetime import UTC, datetime, time, timedelta

import pytest
from django.core.exceptions import ValidationError

from bookings.changes.services import sittings
from bookings.errors import NotPlaced, ReferenceTaken
from bookings.orders.models import Order
from bookings.orders.selectors.account import account
from bookings.outbox.models import Notice
from bookings.payments.models import Method, Payment
from bookings.payments.services import ledger as payments
from plates.bench.models import BenchJob
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
LAPSED = NOW + timedelta(hours=48)
DEPOSIT = 4250  # half of 85.00, the price of a quarter plate


@pytest.fixture
def day():
    """A day of a bench with hands enough and room for one sitter, so that no two begin at once, however it plans."""
    return builders.a_day(bench=builders.a_bench(operators=2, tank_places=2, sitters_at_once=1))


@pytest.fixture
def order(day):
    return builders.a_placed_order(day)


def paid(order, amount=DEPOSIT, *, now=NOW, reference="till 1", **how):
    facts = {"method": Method.CASH} | how
    return payments.record(order_id=order.pk, amount=amount, reference=reference, now=now, **facts)


def kinds(order):
    return list(Notice.objects.filter(order=order).order_by("id").values_list("kind", flat=True))


def state(order):
    """(confirmed at, needs a new time) as stored."""
    stored = Order.objects.get(pk=order.pk)
    return BenchJob.objects.get(pk=stored.sitting.bench_job_id).confirmed_at, stored.needs_new_time


def test_a_deposit_confirms_the_sitting_and_the_client_is_told(order):
    operator = builders.an_operator()

    payment = paid(order, recorded_by=operator, note="two notes")

    assert state(order) == (NOW, False)
    assert kinds(order) == ["deposit_due", "confirmed"]
    stored = Payment.objects.values(
        "order", "amount", "method", "reference", "at", "recorded_by", "note"
    ).get()
    assert stored == {
        "order": order.pk, "amount": DEPOSIT, "method": "cash", "reference": "till 1", "at": NOW,
        "recorded_by": operator.pk, "note": "two notes",
    }  # fmt: skip
    assert payment == Payment.objects.get()


def test_a_part_of_the_deposit_is_kept_and_confirms_nothing(order):
    paid(order, DEPOSIT - 1)

    assert state(order) == (None, False)
    assert account(order).deposit_owed == 1


def test_two_parts_of_a_deposit_confirm_together(order):
    paid(order, DEPOSIT - 1)

    paid(order, 1, reference="till 2")

    assert state(order) == (NOW, False)


def test_the_same_payment_told_twice_is_one(order):
    first = paid(order)

    again = paid(order, now=NOW + timedelta(minutes=5))

    assert again == first
    assert (Payment.objects.get().at, kinds(order)) == (NOW, ["deposit_due", "confirmed"])


@pytest.mark.parametrize("other", [{"amount": DEPOSIT + 1}, {"method": Method.TRANSFER}])
def test_a_different_payment_under_the_same_reference_is_refused(order, other):
    paid(order)

    with pytest.raises(ReferenceTaken, match=r"^The ledger already holds a different payment under"):
        paid(order, **other)

    assert Payment.objects.count() == 1


def test_a_reference_belongs_to_one_order(day, order):
    other = builders.a_placed_order(day, at=time(12))
    paid(order)

    with pytest.raises(ReferenceTaken, match="'till 1'"):
        paid(other)

    assert state(other) == (None, False)


def test_a_refund_is_a_negative_entry(order):
    paid(order)

    paid(order, -1000, reference="back 1")

    assert list(Payment.objects.values_list("amount", flat=True)) == [DEPOSIT, -1000]
    assert (account(order).paid, account(order).owed) == (DEPOSIT - 1000, 8500 - DEPOSIT + 1000)


def test_a_refund_below_the_deposit_does_not_take_a_confirmed_place_away(order):
    paid(order)

    paid(order, -DEPOSIT, reference="back 1")

    assert state(order) == (NOW, False)


def test_a_payment_of_nothing_is_refused(order):
    with pytest.raises(ValidationError, match=r"A payment moves more than nothing\."):
        paid(order, 0)

    assert not Payment.objects.exists()


def test_an_order_without_a_name_takes_no_payment(day):
    held = builders.a_held_order(day)

    with pytest.raises(NotPlaced, match=r"^Nobody has put a name to this order yet, so it cannot"):
        paid(held)

    assert not Payment.objects.exists()


def test_money_after_a_lapse_takes_the_place_anew_while_it_is_free(order):
    paid(order, now=LAPSED + timedelta(hours=1))

    assert state(order) == (LAPSED + timedelta(hours=1), False)
    assert kinds(order) == ["deposit_due", "confirmed"]


def test_money_after_the_place_is_gone_is_kept_and_the_client_is_asked_for_a_new_time(day, order):
    builders.a_paid_order(day, now=LAPSED)

    paid(order, now=LAPSED + timedelta(hours=1))

    assert state(order) == (None, True)
    assert kinds(order) == ["deposit_due", "new_time"]
    assert Payment.objects.filter(order=order).get().amount == DEPOSIT


def test_money_at_the_door_confirms_a_sitting_whose_place_is_still_free(order):
    paid(order, now=TEN)

    assert state(order) == (TEN, False)


def test_money_long_after_the_start_is_kept_and_a_new_time_is_asked_for(order):
    paid(order, now=TEN + timedelta(minutes=18))

    assert state(order) == (None, True)
    assert Payment.objects.count() == 1


def test_more_late_money_asks_for_a_new_time_once(day, order):
    builders.a_paid_order(day, now=LAPSED)
    paid(order, now=LAPSED)

    paid(order, 100, now=LAPSED + timedelta(hours=1), reference="till 2")

    assert kinds(order) == ["deposit_due", "new_time"]
    assert account(order).paid == DEPOSIT + 100


def test_late_money_is_settled_when_the_place_comes_free_again(day, order):
    other = builders.a_paid_order(day, now=LAPSED)
    paid(order, now=LAPSED)
    sittings.cancel(order_id=other.pk, now=LAPSED)

    confirmed = payments.confirm_if_covered(order_id=order.pk, now=LAPSED)

    assert confirmed
    assert state(order) == (LAPSED, False)


def test_money_for_a_cancelled_order_is_kept_and_promises_nothing(order):
    sittings.cancel(order_id=order.pk, now=NOW)

    paid(order)

    assert Payment.objects.count() == 1
    assert state(order) == (None, False)
