"""The payment ledger: money that came is always kept, and only then is it seen what it pays for."""

from datetime import UTC, datetime, time, timedelta

import pytest
from django.core.exceptions import ValidationError

from bookings.changes.services import sittings
from bookings.errors import NotPlaced, ReferenceTaken, TooMuchBack
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
LATER = NOW + timedelta(minutes=5)
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


def test_a_part_of_the_deposit_confirms_nothing_and_the_rest_of_it_does(order):
    paid(order, DEPOSIT - 1)
    assert (state(order), account(order).deposit_owed) == ((None, False), 1)

    paid(order, 1, reference="till 2")

    assert state(order) == (NOW, False)


def test_the_same_payment_told_twice_is_one(order):
    first = paid(order)

    again = paid(order, now=NOW + timedelta(minutes=5))

    assert again == first
    assert (Payment.objects.get().at, kinds(order)) == (NOW, ["deposit_due", "confirmed"])


def test_a_different_payment_under_the_same_reference_is_refused(day, order):
    other = builders.a_placed_order(day, at=time(12))
    paid(order)

    for differs in ({"amount": DEPOSIT + 1}, {"method": Method.TRANSFER}, {"order": other}):
        with pytest.raises(ReferenceTaken, match=r"already holds a different payment under 'till 1'"):
            paid(**({"order": order} | differs))

    assert (Payment.objects.count(), state(other)) == (1, (None, False))


def test_all_that_came_goes_back_and_no_more_and_takes_no_confirmed_place_away(order):
    paid(order)
    paid(order, -1000, reference="back 1")
    assert (account(order).paid, account(order).owed) == (DEPOSIT - 1000, 8500 - DEPOSIT + 1000)
    with pytest.raises(TooMuchBack, match=r"^€32\.51 is more than was paid for this order: €32\.50 at most"):
        paid(order, 999 - DEPOSIT, reference="back 2")

    paid(order, 1000 - DEPOSIT, reference="back 2")

    assert list(Payment.objects.values_list("amount", flat=True)) == [DEPOSIT, -1000, 1000 - DEPOSIT]
    assert state(order) == (NOW, False)


def test_neither_a_payment_of_nothing_nor_one_for_an_order_without_a_name_is_taken(day, order):
    with pytest.raises(ValidationError, match=r"A payment moves more than nothing\."):
        paid(order, 0)
    with pytest.raises(NotPlaced, match="cannot take a payment"):
        paid(builders.a_held_order(day, at=time(12)))

    assert not Payment.objects.exists()


@pytest.mark.parametrize(
    ("now", "confirmed"),
    [(LAPSED + timedelta(hours=1), True), (TEN, True), (TEN + timedelta(minutes=18), False)],
    ids=["after a lapse", "at the door", "long after the start"],
)
def test_late_money_takes_the_place_anew_while_it_is_free_and_not_past_its_start(order, now, confirmed):
    paid(order, now=now)

    assert state(order) == ((now, False) if confirmed else (None, True))
    assert kinds(order) == ["deposit_due", "confirmed" if confirmed else "new_time"]
    assert Payment.objects.count() == 1


def test_money_after_the_place_is_gone_is_kept_and_settled_when_the_place_comes_free_again(day, order):
    other = builders.a_paid_order(day, now=LAPSED)
    paid(order, now=LAPSED)
    paid(order, 100, now=LAPSED + timedelta(hours=1), reference="till 2")
    assert state(order) == (None, True)
    assert kinds(order) == ["deposit_due", "new_time"]  # once
    assert account(order).paid == DEPOSIT + 100
    assert not payments.confirm_if_covered(order_id=order.pk, now=LAPSED)
    sittings.cancel(order_id=other.pk, now=LAPSED)

    confirmed = payments.confirm_if_covered(order_id=order.pk, now=LAPSED)

    assert confirmed
    assert state(order) == (LAPSED, False)


def test_what_a_crash_left_unconfirmed_is_confirmed_and_counted_once(day, order):
    builders.a_placed_order(day, at=time(12))  # nothing came for it
    Payment.objects.create(order=order, amount=DEPOSIT - 1, method=Method.CASH, reference="1", at=NOW)
    assert payments.confirm_covered(now=NOW) == 0
    Payment.objects.create(order=order, amount=1, method=Method.CASH, reference="2", at=NOW)

    assert [payments.confirm_covered(now=LATER), payments.confirm_covered(now=LATER)] == [1, 0]

    assert state(order) == (LATER, False)
    letter = Notice.objects.get(kind="confirmed")
    assert (letter.order, letter.due_at) == (order, LATER)


def test_money_for_a_cancelled_order_is_kept_and_promises_nothing(order):
    sittings.cancel(order_id=order.pk, now=NOW)

    paid(order)

    assert Payment.objects.count() == 1
    assert state(order) == (None, False)
