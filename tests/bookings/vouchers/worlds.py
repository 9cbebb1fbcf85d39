"""Vouchers used for orders, and what is left on those."""

from datetime import timedelta
from uuid import uuid4

from bookings.vouchers import selectors as selector
from bookings.vouchers.services import redeeming
from tests.builders import NOW

HOUR = timedelta(hours=1)


def used(order, voucher, amount=None, *, key=None, now=NOW, code=None):
    return redeeming.redeem(
        order_id=order.pk, code=code or voucher.code, key=key or uuid4(), amount=amount, now=now
    )


def left(voucher):
    return selector.facts_of(voucher).left
