"""Paying by card: off to the card service's page, and back from it."""

from datetime import time

import pytest
from django.urls import reverse

from bookings.cards.models import CardCheckout
from bookings.changes.services import sittings
from bookings.payments.models import Payment
from tests import builders
from tests.bookings.cards import card_service
from tests.bookings.cards.pages import SITE, address, form_action
from tests.bookings.cards.worlds import DEPOSIT, a_page, paid, take
from tests.builders import NOW
from tests.reading.pages import Page

pytestmark = pytest.mark.django_db


def test_the_deposit_page_offers_a_card_and_may_lead_to_the_card_service(client, service, order):
    response = client.get(address("deposit", order))

    page = Page(response)
    assert page.buttons == ["deposit", "whole"]
    assert "Pay the deposit: €42.50" in page.text
    assert "Pay everything: €85.00" in page.text
    assert form_action(response) == f"'self' {card_service.PAGES}"
    assert form_action(client.get(reverse("home"))) == "'self'"


def test_without_a_key_no_card_is_offered_and_nothing_leads_out(client, order):
    response = client.get(address("deposit", order))

    assert Page(response).buttons == []
    assert form_action(response) == form_action(client.get(reverse("home"))) == "'self'"
    assert client.post(address("pay_by_card", order)).status_code == 404
    assert client.post(address("sitting_card", order)).status_code == 404


@pytest.mark.parametrize(("part", "amount"), [("deposit", DEPOSIT), ("whole", 8500), ("anything", DEPOSIT)])
def test_the_button_leads_to_the_page_of_the_card_service(client, service, order, part, amount):
    target = address("pay_by_card", order)

    response = client.post(target, {"part": part})

    page = CardCheckout.objects.get()
    assert (response.status_code, response["Location"], page.amount) == (303, page.address, amount)
    facts = service.asked[0][1]
    assert facts["success_url"] == SITE + target + "thanks/"
    assert facts["cancel_url"] == SITE + target.removesuffix("card/") + "deposit/"


def test_who_has_no_name_is_asked_for_it_first_and_who_has_paid_is_led_to_the_sitting(
    client, service, day, order
):
    builders.pay(order, DEPOSIT)

    nameless = client.post(address("pay_by_card", builders.a_held_order(day, at=time(12))))
    paid_already = client.post(address("pay_by_card", order), follow=True)

    assert nameless.url.endswith("/details/")
    assert paid_already.redirect_chain[-1] == (address("sitting", order), 302)
    assert service.asked == []


@pytest.mark.parametrize(
    ("currency", "status", "sentence"),
    [
        ("EUR", 503, "The card service does not answer just now. Nothing was charged."),
        ("UGX", 409, "The card service cannot take exactly this sum. Pay in another way."),
    ],
)
def test_what_no_card_can_pay_is_said_with_the_other_ways_to_pay(
    client, service, order, currency, status, sentence
):
    type(order).objects.update(currency=currency)
    service.status = 500

    response = client.post(address("pay_by_card", order))

    page = Page(response)
    assert response.status_code == status
    assert sentence in page.text
    assert "Bring the deposit to Gannet Lane" in page.text
    assert any(link.endswith("/deposit/") for link in page.links)
    assert not CardCheckout.objects.exists()


def test_the_rest_not_the_deposit_can_be_paid_by_card_from_the_page_of_the_sitting(client, service, order):
    assert "by card" not in Page(client.get(address("sitting", order))).text
    builders.pay(order, DEPOSIT)
    shown = client.get(address("sitting", order))
    assert "Pay €42.50 by card" in Page(shown).text
    assert form_action(shown) == f"'self' {card_service.PAGES}"

    response = client.post(address("sitting_card", order))

    assert response.status_code == 303
    assert CardCheckout.objects.get().amount == 8500 - DEPOSIT


def test_who_comes_back_before_the_message_is_told_to_wait_and_after_it_sees_the_promise(
    client, service, order
):
    thanks = address("card_thanks", order)
    unpaid = Page(client.get(address("sitting_card_thanks", order))).text
    a_page(order)
    early = Page(client.get(thanks)).text
    assert not Payment.objects.exists()  # coming back proves nothing
    take(paid())

    text = Page(client.get(thanks)).text

    assert "No payment has come for this order so far." in unpaid
    assert "The card service has not told us of your payment yet." in early
    assert "There is no need to pay again." in early
    assert "Your payment is here, and your sitting is promised." in text
    assert "Paid so far €42.50 Still to pay €42.50" in text


def test_who_comes_back_to_a_place_that_has_gone_is_told(client, service, order):
    a_page(order)
    sittings.cancel(order_id=order.pk, now=NOW)
    take(paid())

    text = Page(client.get(address("card_thanks", order))).text

    assert "This sitting was given back before your payment came. The studio keeps your money safe" in text
