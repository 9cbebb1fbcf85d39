"""What a voucher paid goes back to it, and no more than that."""

from datetime import time, timedelta
from uuid import uuid4

import pytest

from bookings.changes.services import sittings
from bookings.errors import VoucherRefused
from bookings.payments.models import Payment
from bookings.vouchers.models import Voucher
from bookings.vouchers.services import redeeming
from tests import builders
from tests.bookings.vouchers.worlds import HOUR, left, used
from tests.builders import NOW

pytestmark = pytest.mark.django_db


def given_back(order, voucher, amount, *, key=None, now=NOW):
    return redeeming.refund(
        order_id=order.pk, voucher_id=voucher.pk, amount=amount, key=key or uuid4(), now=now
    )


def test_money_goes_back_to_its_voucher_and_can_be_used_again(day, order):
    voucher, key = builders.a_voucher(), uuid4()
    used(order, voucher)
    sittings.cancel(order_id=order.pk, now=NOW)

    given_back(order, voucher, 6_000, key=key)
    given_back(order, voucher, 6_000, key=key, now=NOW + HOUR)

    assert list(Payment.objects.filter(order=order).values_list("amount", "method")) == [
        (8_500, "voucher"), (-6_000, "voucher"),
    ]  # fmt: skip
    assert left(voucher) == 7_500
    assert used(builders.a_placed_order(day, at=time(12)), voucher).amount == 7_500


@pytest.mark.parametrize("amount", [8_501, 0, -1], ids=["more than it paid", "nothing", "less than nothing"])
def test_no_more_goes_back_than_the_voucher_has_paid(order, amount):
    voucher = builders.a_voucher(20_000)
    used(order, voucher)

    with pytest.raises(VoucherRefused, match=r"^This voucher has paid €85\.00 of this order\."):
        given_back(order, voucher, amount)

    assert left(voucher) == 11_500


def test_nothing_goes_back_to_a_voucher_that_paid_for_another_order_or_has_run_out(day, order):
    voucher = builders.a_voucher()
    used(order, voucher)
    with pytest.raises(VoucherRefused, match=r"^This voucher has paid €0\.00 of this order\."):
        given_back(builders.a_placed_order(day, at=time(12)), voucher, 100)

    Voucher.objects.filter(pk=voucher.pk).update(last_day=NOW.date() - timedelta(days=1))

    with pytest.raises(VoucherRefused, match=r"^This voucher ran out on .*Give it back another way"):
        given_back(order, voucher, 100)
