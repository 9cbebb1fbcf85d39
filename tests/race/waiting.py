"""A race of drains for what became free: everybody on the list is offered one place, and no place twice."""

from datetime import time

from bookings.orders.models import Order
from bookings.waitlist import services as waiting
from bookings.waitlist.models import Waiting
from tests import builders
from tests.builders import NOW
from tests.race.layouts import PLACES, World, letters_by_kind, problems_of, some_days, three_at_once
from tests.race.worker import Scene

WAITING = 5
TEN = time(10)


def _crowded_lists() -> World:
    """A day with three places at ten, for which five wait."""
    import plates.capacity.exact.day_starts  # noqa: F401 - the solver is loaded once, before the contenders are forked

    days = some_days(1, three_at_once())
    for day in days:
        for number in range(WAITING):
            builders.a_waiting(day, earliest=TEN, latest=TEN, email=f"waits-{number}@example.org")
    return {"days": [day.pk for day in days]}


def _drain() -> int:
    return waiting.offer_freed(now=NOW, seconds=60)


def _offers(world: World) -> World:
    places = Waiting.objects.order_by("pk")
    return {
        "held": Order.objects.count(),
        "orders": list(places.exclude(order=None).values_list("order", flat=True)),
        "offered": [
            [order is not None for order in places.filter(day=day).values_list("order", flat=True)]
            for day in world["days"]
        ],
        "problems": [problem for day in world["days"] for problem in problems_of(day)],
        "letters": letters_by_kind(),
    }


SCENES = {"waiting": Scene(_crowded_lists, lambda world, _: [_drain], _offers, contenders=6)}
EXPECTED = [True] * PLACES + [False] * (WAITING - PLACES)
