"""The pages about cards, and how a browser comes there. Cards are switched on; nobody answers at the card service."""

import re

from django.urls import reverse

from bookings.orders import links
from tests.browser.scenes import Scene, answered, at, checkout


def page_of(house):
    return house.displaced.card_checkouts.get().pk


def card_service_away(page, house):
    page.goto(reverse("deposit", args=[links.checkout_token(house.placed)]))
    return answered(page, page.get_by_role("button", name=re.compile("^Pay everything")).click)


CARD_SCENES = [
    Scene("card, away", card_service_away, status=503),
    Scene("card, not told of yet", at("card_thanks", checkout("placed"))),
    Scene("card messages", at("studio:cards"), studio=True),
    Scene("give back", at("studio:card_give_back", page_of), studio=True),
]
