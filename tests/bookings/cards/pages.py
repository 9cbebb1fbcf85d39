"""Pages where a card pays, as they are asked for, and messages of the card service as they come in."""

from contextlib import contextmanager

from django.urls import reverse

from bookings.orders import links
from tests.bookings.cards import card_service
from tests.bookings.cards.card_service import event, session, signature

SITE = "https://studio.example.org"


@contextmanager
def site_with_cards(settings):
    """The card service, switched on for a site with an address of its own while the block runs."""
    settings.SITE_ADDRESS = SITE
    with card_service.switched_on(settings) as service:
        yield service


def address(name, order):
    token = links.sitting_token(order) if name.startswith("sitting") else links.checkout_token(order)
    return reverse(name, args=[token])


def form_action(response):
    policy = dict(part.strip().split(" ", 1) for part in response["Content-Security-Policy"].split(";"))
    return policy["form-action"]


def send(client, body, signed=None):
    signed = signature(body) if signed is None else signed
    where = reverse("card_messages")
    return client.post(where, body, content_type="application/json", headers={"Stripe-Signature": signed})


def paid_body(order, **facts):
    return event("checkout.session.completed", session(reference=order.reference, **facts))
