"""Who is coming, the deposit, and the practice card."""

from datetime import time, timedelta

import pytest
from django.urls import reverse

from bookings.changes.services import sittings
from bookings.checkout.services import booking
from bookings.orders import links
from bookings.orders.models import Client, Consent, Order
from bookings.payments.models import Payment
from bookings.pricing.models import Terms
from plates.bench.models import BenchJob
from tests import builders
from tests.builders import NOW
from tests.reading.pages import Page

pytestmark = pytest.mark.django_db

TYPED = {
    "name": "Ines Madrugada",
    "email": "ines@example.org",
    "phone": "+351 555 010 010",
    "consent_show": "on",
    "cautions": "on",
}
GIVEN_BACK = "This time was given back. Choose a new one on the first page."
NUL = "Null characters are not allowed."
WRONG = {
    "no name": ({"name": ""}, "Write your name."),
    "a name of blanks": ({"name": "  \t "}, "Write your name."),
    "a name with a NUL": ({"name": "Ines\0"}, NUL),
    "a name too long": ({"name": "I" * 121}, "Ensure this value has at most 120 characters (it has 121)."),
    "no address": ({"email": ""}, "Write the address that your letters go to."),
    "no address at all": ({"email": "ines"}, "Write an address such as name@example.org."),
    "two lines of address": (
        {"email": "ines@example.org\nBcc: all@example.org"},
        "Write an address such as name@example.org.",
    ),
    "a telephone too long": ({"phone": "1" * 41}, "Ensure this value has at most 40 characters (it has 41)."),
    "a telephone with a NUL": ({"phone": "1\0"}, NUL),
    "cautions not read": (
        {"cautions": None},
        "Read the cautions and the terms above, then tick this box.",
    ),
}


@pytest.fixture
def order(day):
    return builders.a_held_order(day)


def address(page, order):
    return reverse(page, args=[links.checkout_token(order)])


def send(client, order, **changes):
    sent = {name: value for name, value in (TYPED | changes).items() if value is not None}
    return client.post(address("details", order), sent)


@pytest.mark.parametrize(("changes", "sentence"), WRONG.values(), ids=WRONG)
def test_what_is_wrong_is_said_and_everything_typed_is_kept(client, order, changes, sentence):
    response = send(client, order, **changes)

    page = Page(response)
    assert response.status_code == 400
    assert sentence in page.errors
    kept = {name: page.fields[name] for name in TYPED}
    # A browser sends a line break in a one-line field as it stands there; HTML shows it as it was sent.
    assert kept == TYPED | changes
    assert not Client.objects.exists()


def test_an_empty_form_names_every_field_that_has_to_be_filled_in(client, order):
    response = client.post(address("details", order), {"name": ""})

    assert Page(response).errors == [
        "Write your name.",
        "Write the address that your letters go to.",
        "Read the cautions and the terms above, then tick this box.",
    ]


def test_a_placed_order_keeps_the_name_and_both_answers(client, order):
    response = send(client, order)

    client_row = Order.objects.get().client
    assert response.url == address("deposit", order)
    assert (client_row.name, client_row.email, client_row.phone) == tuple(TYPED.values())[:3]
    assert dict(Consent.objects.values_list("purpose", "given")) == {"show": True, "news": False}


def test_details_sent_twice_are_one_client_and_lead_on_to_the_deposit(client, order):
    send(client, order)

    again = send(client, order)

    assert again.url == address("deposit", order)
    assert Client.objects.count() == 1


def test_the_deposit_waits_for_a_name(client, order):
    response = client.get(address("deposit", order))

    assert response.url == address("details", order)


def test_an_order_without_a_deposit_is_promised_at_once(client, day):
    Terms.objects.update(deposit_share_bp=0)
    order = builders.a_held_order(day)

    send(client, order)

    assert BenchJob.objects.get().confirmed_at == NOW
    assert client.get(address("deposit", order)).url.startswith("/sitting/")


def test_a_lapsed_hold_whose_place_went_offers_the_nearest_times_and_keeps_what_was_typed(
    client, order, clock
):
    clock.shift(timedelta(minutes=21))
    builders.a_paid_order(order.sitting.day, now=NOW + timedelta(minutes=21))

    response = send(client, order, cautions="on")

    page = Page(response)
    assert response.status_code == 409
    assert "The room is full of sitters from 10:" in page.text
    assert {name: page.fields[name] for name in TYPED} == TYPED
    assert page.buttons
    assert Order.objects.get(pk=order.pk).placed_at is None


def test_pressing_one_of_the_nearest_times_places_the_order_there(client, order, clock):
    clock.shift(timedelta(minutes=21))
    builders.a_paid_order(order.sitting.day, now=NOW + timedelta(minutes=21))
    offered = Page(send(client, order)).buttons[-1]

    response = send(client, order, start=offered)

    assert response.url == address("deposit", order)
    assert offered.endswith(Order.objects.get(pk=order.pk).sitting.bench_job.starts_at.isoformat())


@pytest.mark.parametrize("start", ["x", "1 2026-11-28T10:00", "\0", "1 9999-12-31T23:59:00+00:00"])
def test_another_time_that_no_button_sends_is_refused_and_what_was_typed_is_kept(client, order, start):
    response = send(client, order, start=start)

    page = Page(response)
    assert response.status_code == 409
    assert "Choose one of the start times shown." in page.text
    assert page.fields["name"] == TYPED["name"]


def test_a_start_that_has_passed_meanwhile_is_refused_with_what_was_typed(client, day, clock):
    order = builders.a_held_order(day, at=time(10), now=NOW + timedelta(days=8))
    clock.move_to(NOW + timedelta(days=8, hours=2))

    response = send(client, order)

    page = Page(response)
    assert response.status_code == 409
    assert "That start time has passed." in page.text
    assert page.fields["email"] == TYPED["email"]


@pytest.mark.parametrize("page", ["details", "deposit"])
def test_a_cancelled_order_asks_for_nothing_any_more(client, day, page):
    order = builders.a_placed_order(day)
    sittings.cancel(order_id=order.pk, now=NOW)

    response = client.get(address(page, order))

    assert (response.status_code, GIVEN_BACK in Page(response).text) == (410, True)


def test_a_time_that_was_given_back_takes_no_name(client, order):
    booking.drop_hold(order_id=order.pk, now=NOW)

    response = send(client, order)

    assert (response.status_code, GIVEN_BACK in Page(response).text) == (410, True)
    assert not Client.objects.exists()


@pytest.mark.parametrize("method", ["get", "post"])
def test_there_is_no_practice_card_outside_the_practice_studio(client, day, settings, method):
    settings.DEMO = False
    order = builders.a_placed_order(day)

    response = getattr(client, method)(address("practice_card", order))

    assert response.status_code == (404 if method == "post" else 405)
    assert not Payment.objects.exists()


def test_the_practice_card_pays_the_deposit_once_however_often_it_is_pressed(client, day, settings):
    settings.DEMO = True
    order = builders.a_placed_order(day)

    answers = [client.post(address("practice_card", order)) for _ in range(2)]

    assert [answer.url for answer in answers] == [reverse("sitting", args=[links.sitting_token(order)])] * 2
    # Half of 85.00 by the terms of the builders, worked out by hand.
    assert list(Payment.objects.values_list("amount", "method")) == [(4250, "practice")]
    assert BenchJob.objects.get().confirmed_at == NOW


def test_the_practice_card_pays_nothing_for_a_cancelled_order(client, day, settings):
    settings.DEMO = True
    order = builders.a_placed_order(day)
    sittings.cancel(order_id=order.pk, now=NOW)

    client.post(address("practice_card", order))

    assert not Payment.objects.exists()


def test_the_practice_card_pays_nothing_before_there_is_a_name(client, order, settings):
    settings.DEMO = True

    response = client.post(address("practice_card", order))

    assert response.status_code == 409
    assert "Nobody has put a name to this order yet" in Page(response).text
