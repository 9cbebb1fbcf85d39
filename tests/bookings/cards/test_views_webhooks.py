"""Messages of the card service at the door: believed, entered, or turned away."""

from datetime import timedelta

import pytest
from django.test import Client
from django.urls import reverse

from bookings.cards.models import CardNotice
from bookings.cards.views.client import LARGEST_MESSAGE
from bookings.payments.models import Payment
from tests.bookings.cards import card_service
from tests.bookings.cards.card_service import event, session, signature
from tests.bookings.cards.pages import paid_body, send, site_with_cards
from tests.bookings.cards.worlds import DEPOSIT, a_page
from tests.builders import NOW

pytestmark = pytest.mark.django_db


def test_a_signed_message_is_entered_without_a_token_of_a_form_and_once(service, order):
    a_page(order)
    door = Client(enforce_csrf_checks=True)

    first, again = (send(door, paid_body(order)) for _ in range(2))

    assert (first.status_code, first.content) == (200, b"Entered in the ledger\n")
    assert (again.status_code, again.content) == (200, b"Known already\n")
    assert Payment.objects.get().amount == DEPOSIT


@pytest.mark.parametrize(
    ("change", "when", "secret"),
    [
        (b"4251", NOW, card_service.SECRET),
        (b"4250", NOW - timedelta(seconds=301), card_service.SECRET),
        (b"4250", NOW, card_service.OLDER_SECRET),
    ],
    ids=["changed", "old", "another secret"],
)
def test_a_message_that_is_not_to_be_believed_leaves_no_row(client, service, order, change, when, secret):
    a_page(order)
    body = paid_body(order)

    response = send(client, body.replace(b"4250", change), signature(body, at=when, secret=secret))

    assert response.status_code == 400
    assert not CardNotice.objects.exists()
    assert not Payment.objects.exists()


def test_a_message_as_long_as_may_be_is_read_and_a_longer_one_is_not_and_none_is_logged(
    client, service, caplog
):
    body = event("checkout.session.completed", session(reference="a-private-word"))
    longest = body + b" " * (LARGEST_MESSAGE - len(body))

    assert send(client, longest).status_code == 200
    assert send(client, longest + b" ").status_code == 413
    send(client, body, "t=1,v1=00")

    assert "a-private-word" not in caplog.text


def test_without_a_signature_a_message_is_refused_and_without_a_key_there_is_no_door(client, settings):
    door = reverse("card_messages")
    assert client.post(door).status_code == 404
    with site_with_cards(settings):
        assert client.post(door, b"{}", content_type="application/json").status_code == 400
