"""What vouchers pay: in parts, for several orders, until their last day."""

from datetime import UTC, date, datetime, time, timedelta
from uuid import uuid4

import pytest

from bookings.changes.services import sittings
from bookings.errors import NotPlaced, OrderCancelled, ReferenceTaken, VoucherRefused
from bookings.orders.models import Order
from bookings.orders.selectors.account import account
from bookings.vouchers import selectors as selector
from bookings.vouchers.services import selling as vouchers
from tests import builders
from tests.bookings.vouchers.worlds import HOUR, left, used
from tests.builders import NOW

pytestmark = pytest.mark.django_db

DEPOSIT = 4250  # half of 85.00, the price of a quarter plate


def confirmed(order):
    return Order.objects.get(pk=order.pk).sitting.bench_job.confirmed_at


def test_a_voucher_pays_the_whole_price_and_keeps_the_rest(order):
    voucher = builders.a_voucher(10_000)

    payment = used(order, voucher)

    assert (payment.amount, payment.method, payment.with_voucher) == (8_500, "voucher", voucher)
    assert (account(order).owed, left(voucher), confirmed(order)) == (0, 1_500, NOW)


def test_one_voucher_pays_for_several_orders_until_nothing_is_left(day):
    orders = [builders.a_placed_order(day, at=time(hour)) for hour in (10, 12, 14)]
    voucher = builders.a_voucher(10_000)

    assert [used(each, voucher).amount for each in orders[:2]] == [8_500, 1_500]
    with pytest.raises(VoucherRefused, match=r"^Nothing is left on this voucher\.$"):
        used(orders[2], voucher)


def test_a_voucher_below_the_deposit_leaves_the_rest_of_it_to_a_second_one(order):
    used(order, builders.a_voucher(3_000))
    assert (account(order).deposit_owed, account(order).owed) == (DEPOSIT - 3_000, 5_500)
    assert confirmed(order) is None

    used(order, builders.a_voucher(20_000))

    assert [part.paid for part in selector.parts_of(order)] == [3_000, 5_500]


def test_a_form_takes_once_and_for_one_order_however_the_code_is_typed(day, order):
    other, voucher, key = builders.a_placed_order(day, at=time(12)), builders.a_voucher(), uuid4()
    typed = f" {voucher.code[:4].lower()}-{voucher.code[4:8]} {voucher.code[8:]}"

    assert used(order, voucher, 1_000, key=key, code=typed) == used(
        order, voucher, 1_000, key=key, now=NOW + HOUR
    )
    with pytest.raises(ReferenceTaken):
        used(other, voucher, 1_000, key=key)
    assert left(voucher) == 9_000


def test_no_more_is_taken_than_is_owed_or_left(order):
    voucher = builders.a_voucher(10_000)

    with pytest.raises(VoucherRefused, match=r"^At most €85\.00 can be taken from this voucher now\.$"):
        used(order, voucher, 8_501)
    with pytest.raises(VoucherRefused, match=r"^At most €85\.00"):
        used(order, voucher, -1)

    assert left(voucher) == 10_000


def test_what_cannot_pay_is_refused(order):
    gone = builders.a_voucher()
    vouchers.withdraw(voucher_id=gone.pk, now=NOW)
    unpaid = builders.a_voucher(paid=False)
    builders.a_studio(currency="USD")

    for voucher, sentence in (
        (unpaid, "This voucher has not been paid for in full yet"),
        (gone, "The studio has taken this voucher back"),
        (builders.a_voucher(), r"This voucher is in USD and cannot pay for an order in EUR\.$"),
    ):
        with pytest.raises(VoucherRefused, match=sentence):
            used(order, voucher)


def test_it_runs_out_by_the_clock_where_the_sitting_is():
    builders.a_studio(voucher_months=1)
    voucher = builders.a_voucher(now=datetime(2026, 10, 21, 12, tzinfo=UTC))
    assert voucher.last_day == date(2026, 11, 21)
    # 21 November, 12:00 UTC: there it is 22 November, 01:00 (UTC+13); at the studio the day is not over.
    noon = datetime(2026, 11, 21, 12, tzinfo=UTC)
    far = builders.a_placed_order(
        builders.a_day(zone="Pacific/Auckland", bench=builders.a_bench(name="Tent")), now=noon
    )
    near = builders.a_placed_order(builders.a_day(), now=noon)

    with pytest.raises(VoucherRefused, match=r"^This voucher ran out on Saturday 21 November 2026\.$"):
        used(far, voucher, now=noon)
    assert used(near, voucher, now=noon).amount == 8_500


def test_neither_a_paid_nor_a_cancelled_order_nor_one_without_a_name_takes_a_voucher(day, order):
    voucher = builders.a_voucher()
    with pytest.raises(NotPlaced):
        used(builders.a_held_order(day, at=time(12)), voucher)
    builders.pay(order, 8_500)
    with pytest.raises(VoucherRefused, match=r"^Nothing is owed on this order any more"):
        used(order, voucher)
    sittings.cancel(order_id=order.pk, now=NOW)

    with pytest.raises(OrderCancelled):
        used(order, voucher)


def test_what_a_voucher_paid_for_a_place_that_is_gone_is_kept_and_a_new_time_asked_for():
    day = builders.a_day(bench=builders.a_bench(sitters_at_once=1))
    order, lapsed = builders.a_placed_order(day), NOW + timedelta(hours=48)
    builders.a_paid_order(day, now=lapsed)

    used(order, builders.a_voucher(), now=lapsed + HOUR)

    assert Order.objects.get(pk=order.pk).needs_new_time
    assert account(order).paid == 8_500
