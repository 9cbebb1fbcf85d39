"""What is put on an order that was placed already."""

from django.db.models import Max

from bookings.orders.models import Order, OrderLine


def put_on(*, order: Order, line: OrderLine) -> OrderLine:
    """Save a line behind the others of an order, which is locked."""
    line.order = order
    line.position = (order.lines.aggregate(last=Max("position"))["last"] or 0) + 1
    line.save()
    return line
