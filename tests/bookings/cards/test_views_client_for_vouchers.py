"""A voucher is paid for by card, as anybody does it."""

import pytest
from django.urls import reverse

from bookings.cards.models import CardCheckout
from bookings.vouchers import links as voucher_links
from tests import builders
from tests.bookings.cards import card_service
from tests.bookings.cards.card_service import event, session
from tests.bookings.cards.pages import form_action, send
from tests.reading.pages import Page

pytestmark = pytest.mark.django_db


def of_voucher(name, voucher):
    return reverse(name, args=[voucher_links.voucher_token(voucher)])


def test_a_voucher_is_paid_by_card_and_its_page_shows_it(client, service):
    builders.a_studio()
    voucher = builders.a_voucher(paid=False)
    shown = client.get(of_voucher("voucher", voucher))
    assert "Pay €100.00 by card" in Page(shown).text
    assert form_action(shown) == f"'self' {card_service.PAGES}"

    response = client.post(of_voucher("pay_voucher_by_card", voucher))

    page = CardCheckout.objects.get()
    assert (response.status_code, response["Location"], page.amount) == (303, page.address, 10_000)
    # Whoever reads the card service's lists learns no code that could be used.
    assert voucher.code not in str(service.asked)
    assert "has not told us yet" in Page(client.get(of_voucher("voucher", voucher))).text
    send(client, event("checkout.session.completed", session(page.session, amount=10_000)))
    assert "Your voucher is paid for" in Page(client.get(of_voucher("voucher", voucher))).text


def test_without_a_key_a_voucher_is_not_paid_by_card(client):
    builders.a_studio()
    voucher = builders.a_voucher(paid=False)

    assert "by card" not in Page(client.get(of_voucher("voucher", voucher))).text
    assert client.post(of_voucher("pay_voucher_by_card", voucher)).status_code == 404
