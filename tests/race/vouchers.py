"""A race for one voucher: what is left on it is counted under its lock, or more is taken than it is worth."""

from functools import partial
from uuid import uuid4

from bookings.payments.models import Payment
from bookings.vouchers.models import Voucher
from bookings.vouchers.services import redeeming
from tests import builders
from tests.builders import NOW
from tests.race.layouts import World, many_orders
from tests.race.worker import CONTENDERS, Scene

WORTH = 10_000
EACH = 1_500  # six times, and then what is left


def _one_voucher() -> World:
    orders = many_orders(CONTENDERS, placed=builders.a_placed_order)
    return {"orders": [order.pk for order in orders], "code": builders.a_voucher(WORTH).code}


def _take(order_id: int, code: str, amount: int | None) -> int:
    payment = redeeming.redeem(order_id=order_id, code=code, key=uuid4(), amount=amount, now=NOW)
    return payment.amount


def _taking(world: World, number: int):
    """Each takes a part for an order of its own, and then as much as is left."""
    take = partial(_take, world["orders"][number], world["code"])
    return [partial(take, EACH), partial(take, None)]


def _taken(world: World) -> World:
    voucher = Voucher.objects.get()
    return {"taken": list(Payment.objects.filter(with_voucher=voucher).values_list("amount", flat=True))}


SCENES = {"one_voucher": Scene(_one_voucher, _taking, _taken)}
