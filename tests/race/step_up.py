"""A race for one mailed link: it opens once, however many browsers press at the same moment."""

from functools import partial

from bookings.access import links as step_up_links
from bookings.access import services as step_up
from bookings.access.models import Purpose, StepUp
from tests import builders
from tests.builders import NOW
from tests.race.layouts import World
from tests.race.worker import Scene

PRESSING = 20


def _one_link() -> World:
    order = builders.a_paid_order(builders.a_day())
    asked = step_up.ask(order_id=order.pk, purpose=Purpose.DATA, now=NOW)
    return {"link": step_up_links.token(asked)}


def _press(link: str) -> int:
    return step_up.use(text=link, now=NOW).pk


def _used(world: World) -> World:
    return {"used": StepUp.objects.filter(used_at__isnull=False).count()}


SCENES = {
    "one_link": Scene(
        _one_link, lambda world, _: [partial(_press, world["link"])], _used, contenders=PRESSING
    )
}
