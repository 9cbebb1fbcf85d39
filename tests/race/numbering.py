"""A race for numbers in which work is rolled back and processes are killed, over a midnight."""

import os
import signal
from datetime import timedelta
from functools import partial

from django.db import connection, transaction

from bookings.invoices.models import Invoice, InvoiceSeries
from bookings.invoices.services import issuing as invoices
from tests import builders
from tests.builders import NOW
from tests.race.layouts import World, many_orders
from tests.race.worker import CONTENDERS, Scene
from tests.race.working import rolled_back

EACH = 5
TOMORROW = NOW + timedelta(days=1)


def _orders(each: int) -> World:
    """One order that all contenders want, then a few for each of them."""
    first, *orders = many_orders(1 + CONTENDERS * each, placed=builders.a_placed_order)
    return {"first": first.pk, "orders": [order.pk for order in orders]}


def _issue(order_id: int, number: int) -> str:
    # Every other contender looked at its clock before midnight and waits until after it.
    return invoices.issue(order_id=order_id, now=TOMORROW if number % 2 else NOW).label


def _killed(act) -> int:
    """Do it in a process of its own that is killed once the number is taken and before it is committed."""
    connection.close()  # nothing of an open connection may be in two processes
    child = os.fork()
    if not child:
        try:
            with transaction.atomic():
                act()
                os.kill(os.getpid(), signal.SIGKILL)
        finally:
            os._exit(1)  # reached only where the act was refused: this process is no contender
    _, status = os.waitpid(child, 0)
    return os.WTERMSIG(status)


def fate(number: int, turn: int) -> str:
    """Every fifth act of all is rolled back, and of each contender's last ones every other is killed."""
    if (number + turn) % EACH == 0:
        return "rolled back"
    return "killed" if (number + turn) % EACH == EACH - 1 and number % 2 else "issued"


def _acts(world: World, number: int):
    wrapped = {"rolled back": rolled_back, "killed": _killed}
    own = [partial(_issue, pk, number) for pk in world["orders"][number * EACH : (number + 1) * EACH]]
    fates = [fate(number, turn) for turn in range(EACH)]
    ends = [
        partial(wrapped[end], act) if end in wrapped else act for end, act in zip(fates, own, strict=True)
    ]
    return [partial(_issue, world["first"], 0), *ends]


def _numbers(world: World) -> World:
    found = Invoice.objects.order_by("number")
    return {
        "numbers": list(found.values_list("number", flat=True)),
        "dates": [on.isoformat() for on in found.values_list("issued_on", flat=True)],
        "counter": InvoiceSeries.objects.get().last,
    }


SCENES = {
    "numbers": Scene(partial(_orders, EACH), _acts, _numbers),
    "one_number_each": Scene(
        partial(_orders, 1),
        lambda world, number: [partial(_issue, world["orders"][number], number)],
        _numbers,
    ),
}
