"""Paying by card: off to the card service's page, back from it, and its messages at the door."""

from datetime import timedelta

import pytest
from django.test import Client
from django.urls import reverse

from bookings import links
from bookings.models import CardCheckout, CardNotice, Payment
from bookings.services import sittings
from bookings.views.cards import LARGEST_MESSAGE
from tests import builders
from tests.bookings import card_service
from tests.bookings.card_service import event, session, signature
from tests.bookings.services.card_worlds import DEPOSIT, a_page, paid, take
from tests.bookings.views.reading import Page
from tests.builders import NOW

pytestmark = pytest.mark.django_db

SITE = "https://studio.example.org"


@pytest.fixture
def service(settings):
    settings.SITE_ADDRESS = SITE
    with card_service.switched_on(settings) as service:
        yield service


@pytest.fixture
def order(day):
    return builders.a_placed_order(day)


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


def test_the_deposit_page_offers_a_card_and_may_lead_to_the_card_service(client, service, order):
    response = client.get(address("deposit", order))

    page = Page(response)
    assert page.buttons == ["deposit", "whole"]
    assert "Pay the deposit: €42.50" in page.text
    assert "Pay everything: €85.00" in page.text
    assert form_action(response) == f"'self' {card_service.PAGES}"


def test_without_a_key_no_card_is_offered_and_nothing_leads_out(client, order):
    response = client.get(address("deposit", order))

    assert Page(response).buttons == []
    assert form_action(response) == "'self'"
    assert client.post(address("pay_by_card", order)).status_code == 404
    assert client.post(address("sitting_card", order)).status_code == 404


def test_other_pages_lead_nowhere_outside(client, service):
    assert form_action(client.get(reverse("home"))) == "'self'"


@pytest.mark.parametrize(("part", "amount"), [("deposit", DEPOSIT), ("whole", 8500), ("anything", DEPOSIT)])
def test_the_button_leads_to_the_page_of_the_card_service(client, service, order, part, amount):
    target = address("pay_by_card", order)

    response = client.post(target, {"part": part})

    page = CardCheckout.objects.get()
    assert (response.status_code, response["Location"], page.amount) == (303, page.address, amount)
    facts = service.asked[0][1]
    assert facts["success_url"] == SITE + target + "thanks/"
    assert facts["cancel_url"] == SITE + target.removesuffix("card/") + "deposit/"


def test_who_has_no_name_yet_is_asked_for_it_first(client, service, day):
    held = builders.a_held_order(day)

    response = client.post(address("pay_by_card", held))

    assert response.url.endswith("/details/")
    assert service.asked == []


def test_what_is_paid_already_leads_to_the_sitting(client, service, order):
    builders.pay(order, DEPOSIT)

    response = client.post(address("pay_by_card", order), follow=True)

    assert response.redirect_chain[-1] == (address("sitting", order), 302)


def test_a_card_service_that_is_away_is_said_with_the_other_ways_to_pay(client, service, order):
    service.status = 500

    response = client.post(address("pay_by_card", order))

    page = Page(response)
    assert response.status_code == 503
    assert "The card service does not answer just now. Nothing was charged." in page.text
    assert "Bring the deposit to Gannet Lane" in page.text
    assert any(link.endswith("/deposit/") for link in page.links)
    assert not CardCheckout.objects.exists()


def test_a_sum_that_no_card_can_be_asked_for_is_said(client, service, order):
    type(order).objects.update(currency="UGX")

    response = client.post(address("pay_by_card", order))

    assert response.status_code == 409
    assert "The card service cannot take exactly this sum. Pay in another way." in Page(response).text


def test_the_rest_can_be_paid_by_card_from_the_page_of_the_sitting(client, service, day):
    order = builders.a_paid_order(day)
    shown = client.get(address("sitting", order))
    assert "Pay €42.50 by card" in Page(shown).text
    assert form_action(shown) == f"'self' {card_service.PAGES}"

    response = client.post(address("sitting_card", order))

    assert response.status_code == 303
    assert CardCheckout.objects.get().amount == 8500 - DEPOSIT


def test_a_deposit_is_not_asked_for_on_the_page_of_the_sitting(client, service, order):
    assert "by card" not in Page(client.get(address("sitting", order))).text


def test_who_comes_back_before_the_message_is_told_to_wait(client, service, order):
    a_page(order)

    text = Page(client.get(address("card_thanks", order))).text

    assert "The card service has not told us of your payment yet." in text
    assert "There is no need to pay again." in text


def test_coming_back_proves_nothing(client, service, order):
    a_page(order)

    client.get(address("card_thanks", order))

    assert not Payment.objects.exists()


def test_who_comes_back_after_the_message_sees_the_promise(client, service, order):
    a_page(order)
    take(paid())

    text = Page(client.get(address("card_thanks", order))).text

    assert "Your payment is here, and your sitting is promised." in text
    assert "Paid so far €42.50 Still to pay €42.50" in text


def test_who_comes_back_to_a_place_that_has_gone_is_told(client, service, order):
    a_page(order)
    sittings.cancel(order_id=order.pk, now=NOW)
    take(paid())

    text = Page(client.get(address("card_thanks", order))).text

    assert "This sitting was given back before your payment came. The studio keeps your money safe" in text


def test_who_comes_back_without_having_paid_is_told(client, service, order):
    assert (
        "No payment has come for this order so far."
        in Page(client.get(address("sitting_card_thanks", order))).text
    )


def test_a_signed_message_is_entered(client, service, order):
    a_page(order)

    response = send(client, paid_body(order))

    assert (response.status_code, response.content) == (200, b"Entered in the ledger\n")
    assert Payment.objects.get().amount == DEPOSIT


def test_the_same_message_again_is_welcome_and_changes_nothing(client, service, order):
    a_page(order)
    send(client, paid_body(order))

    response = send(client, paid_body(order))

    assert (response.status_code, response.content) == (200, b"Known already\n")
    assert Payment.objects.count() == 1


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


def test_a_message_without_a_signature_is_refused(client, service):
    assert client.post(reverse("card_messages"), b"{}", content_type="application/json").status_code == 400


def test_a_message_as_long_as_may_be_is_read_and_a_longer_one_is_not(client, service, order):
    body = paid_body(order)
    longest = body + b" " * (LARGEST_MESSAGE - len(body))

    assert send(client, longest).status_code == 200
    assert send(client, longest + b" ").status_code == 413


def test_a_message_needs_no_token_of_a_form(service, order):
    assert send(Client(enforce_csrf_checks=True), paid_body(order)).status_code == 200


def test_without_a_key_there_is_no_door_for_messages(client):
    assert client.post(reverse("card_messages")).status_code == 404


def test_the_words_of_a_message_are_not_logged(client, service, order, caplog):
    body = event("checkout.session.completed", session(reference="a-private-word"))

    send(client, body)
    send(client, body, "t=1,v1=00")

    assert "a-private-word" not in caplog.text


def of_voucher(name, voucher):
    return reverse(name, args=[links.voucher_token(voucher)])


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
