"""What is owed on an order, and how sure its sitting is."""

from datetime import UTC, datetime, timedelta

import pytest

from bookings.changes.services import sittings
from bookings.checkout.services import booking
from bookings.orders.models import Order
from bookings.orders.selectors.account import OrderStatus, account, order_status
from bookings.pricing.models import Terms
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

LAPSED = NOW + timedelta(hours=48)


@pytest.fixture
def day():
    """A day of a bench with hands enough and room for one sitter, so that no two begin at once."""
    return builders.a_day(bench=builders.a_bench(operators=2, tank_places=2, sitters_at_once=1))


def how_sure(order, *, now=NOW):
    return order_status(Order.objects.get(pk=order.pk), now=now)


def test_an_account_is_worked_out_from_lines_and_ledger(day):
    order = builders.a_paid_order(day, sizes=("quarter", "half"), extras={builders.an_extra(): 1})
    builders.pay(order, 1000)

    money = account(Order.objects.get(pk=order.pk))

    gross = 8500 + 12500 + 3000
    assert (money.currency, money.gross, money.deposit) == ("EUR", gross, gross // 2)
    assert (money.paid, money.owed, money.deposit_owed) == (gross // 2 + 1000, gross // 2 - 1000, 0)
    assert not money.settled


@pytest.mark.parametrize(("more", "settled"), [(4249, False), (4250, True), (4251, True)])
def test_an_order_is_settled_once_nothing_is_owed(day, more, settled):
    order = builders.a_paid_order(day)

    builders.pay(order, more)

    money = account(Order.objects.get(pk=order.pk))
    assert (money.settled, money.owed) == (settled, 4250 - more)
    assert money.overpaid == max(0, more - 4250)


def test_a_deposit_can_be_a_fixed_sum_and_is_never_more_than_the_order(day):
    Terms.objects.update(deposit_share_bp=None, deposit_fixed=9000)
    order = builders.a_held_order(day)

    assert account(Order.objects.get(pk=order.pk)).deposit == 8500


def test_each_order_is_paid_by_its_own_payments_only(day):
    first = builders.a_paid_order(day)
    builders.pay(first, -250)
    second = builders.a_placed_order(day, at=datetime(2026, 11, 28, 12, tzinfo=UTC))

    assert (account(first).paid, account(second).paid) == (4000, 0)


def test_a_placed_order_is_held_and_then_lapsed(day):
    order = builders.a_placed_order(day)

    assert how_sure(order, now=LAPSED - timedelta(seconds=1)) == OrderStatus.HELD
    assert how_sure(order, now=LAPSED) == OrderStatus.LAPSED


def test_a_paid_order_is_promised_however_late_it_is(day):
    assert how_sure(builders.a_paid_order(day), now=LAPSED + timedelta(days=30)) == OrderStatus.PROMISED


def test_a_paid_order_whose_place_was_gone_needs_a_new_time(day):
    order = builders.a_placed_order(day)
    builders.a_paid_order(day, now=LAPSED)

    builders.pay(order, 4250, now=LAPSED)

    assert how_sure(order, now=LAPSED) == OrderStatus.NEW_TIME


def test_a_cancelled_order_is_cancelled_though_it_was_paid(day):
    order = builders.a_paid_order(day)

    sittings.cancel(order_id=order.pk, now=NOW)

    assert how_sure(order) == OrderStatus.CANCELLED


def test_a_dropped_hold_is_cancelled(day):
    order = builders.a_held_order(day)

    booking.drop_hold(order_id=order.pk, now=NOW)

    assert how_sure(order) == OrderStatus.CANCELLED
