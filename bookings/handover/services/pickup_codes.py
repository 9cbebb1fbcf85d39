"""The code of an order, against which its plates are handed over."""

from bookings.common.codes import new_code
from bookings.orders.models import Order


def give(*, order: Order) -> None:
    """Give a placed order its code, once."""
    if order.pickup_code is None:
        order.pickup_code = new_code()
        order.save(update_fields=["pickup_code"])
