"""The pages of the waiting list, of papers kept by law and of the telephone's calendar."""

from django.urls import reverse

from bookings.waitlist import links as waiting_links
from bookings.waitlist.models import Waiting
from plates.bench.models import PlateSize
from tests.browser.scenes import Scene, answered, at, day


def asking(house):
    """The address of the form, for a quarter plate on the full day."""
    quarter = PlateSize.objects.get(name="quarter").pk
    return f"{reverse('wait')}?size_{quarter}=1&day={house.full.pk}"


def place(house):
    return waiting_links.token(Waiting.objects.order_by("pk").first())


def new_address(page, house):
    page.goto(reverse("studio:telephone"))
    return answered(page, page.get_by_role("button", name="address").first.click)


WAITING_SCENES = [
    Scene("wait for a place", lambda page, house: page.goto(asking(house))),
    Scene("place on the list", at("waiting", place)),
    Scene("waiting list", at("studio:waiting_list", day("full")), studio=True),
    Scene("kept by law", at("studio:kept_by_law"), studio=True),
    Scene("telephone, address shown", new_address, studio=True),
]
