"""The pages behind a mailed link, and how a browser comes there."""

from datetime import timedelta
from uuid import uuid4

from django.urls import reverse

from bookings.access import links as step_up_links
from bookings.access import services as step_up
from bookings.access.models import Purpose, StepUp
from tests.browser.scenes import Scene
from tests.builders import NOW


def link(order, purpose):
    """The address of a mailed link, however many went out before."""
    asked = StepUp.objects.create(
        order=order,
        purpose=purpose,
        nonce=uuid4(),
        standing=step_up.fingerprint(order=order),
        asked_at=NOW,
        runs_out_at=NOW + timedelta(days=1),
    )
    return step_up_links.path(asked)


def mailed(page, house):
    return page.goto(link(house.paid, Purpose.CHANGE))


def opened(page, house, purpose):
    page.goto(link(house.paid, purpose))
    page.get_by_role("button", name="Open it now").click()
    return page.goto(reverse(f"mine_{purpose}"))


def change(page, house):
    return opened(page, house, Purpose.CHANGE)


def papers(page, house):
    return opened(page, house, Purpose.PAPERS)


def data(page, house):
    return opened(page, house, Purpose.DATA)


MINE_SCENES = [
    Scene("mailed link", mailed),
    Scene("mine, change", change),
    Scene("mine, papers", papers),
    Scene("mine, details", data),
]
