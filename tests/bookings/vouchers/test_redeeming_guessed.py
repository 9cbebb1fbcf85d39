"""Codes that no voucher has: after ten of them the order has to wait for an hour."""

from datetime import time, timedelta
from uuid import uuid4

import pytest

from bookings.errors import TooManyCodes, UnknownCode
from bookings.vouchers.models import WrongCode
from bookings.vouchers.services import redeeming
from tests import builders
from tests.bookings.vouchers.worlds import HOUR
from tests.builders import NOW

pytestmark = pytest.mark.django_db


def guessed(order, code="GUESSGUESS22", *, now=NOW):
    return redeeming.redeem_unaided(order_id=order.pk, code=code, key=uuid4(), now=now)


def test_after_ten_wrong_codes_even_the_right_one_waits_for_an_hour_and_no_other_order_does(day, order):
    other, voucher = builders.a_placed_order(day, at=time(12)), builders.a_voucher(20_000)
    for minute in range(redeeming.MOST_WRONG_CODES):
        with pytest.raises(UnknownCode):
            guessed(order, now=NOW + timedelta(minutes=minute))

    with pytest.raises(TooManyCodes):
        guessed(order, voucher.code, now=NOW + timedelta(minutes=59))

    assert guessed(other, voucher.code).amount == 8_500
    assert guessed(order, voucher.code, now=NOW + HOUR).amount == 8_500


def test_wrong_codes_are_forgotten_after_their_hour(order):
    for now in (NOW, NOW + HOUR):
        with pytest.raises(UnknownCode):
            guessed(order, now=now)

    assert list(WrongCode.objects.values_list("at", flat=True)) == [NOW + HOUR]
