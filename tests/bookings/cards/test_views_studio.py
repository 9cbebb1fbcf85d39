"""Cards paid online, for the photographer: money given back, and messages to be looked at."""

import pytest
from django.urls import reverse

from bookings.cards.models import CardNotice
from bookings.payments.models import Payment
from tests.bookings.cards.worlds import DEPOSIT, a_page, paid, take
from tests.reading.pages import Page

pytestmark = pytest.mark.django_db


@pytest.fixture
def page(order):
    page = a_page(order)
    take(paid())
    return page


def give_back(page):
    return reverse("studio:card_give_back", args=[page.pk])


def test_part_is_given_back_from_the_page_of_the_order_once(photographer, service, order, page):
    shown = Page(photographer.get(reverse("studio:order", args=[order.reference])))
    assert "€42.50 came by card." in shown.text
    assert give_back(page) in shown.links
    form = Page(photographer.get(give_back(page))).fields
    assert form["amount"] == "42.50"

    for _ in range(2):
        response = photographer.post(give_back(page), form | {"amount": "10.00"})

    assert response.url == reverse("studio:order", args=[order.reference])
    entered = Payment.objects.get(amount=-1000)
    assert (entered.method, entered.recorded_by.username) == ("card", "operator")
    text = Page(photographer.get(response.url)).text
    assert "€42.50 came by card, €10.00 of it went back." in text


@pytest.mark.parametrize(
    ("amount", "sentence"),
    [
        ("42.51", "At most €42.50 of this payment can be given back."),
        ("", "Fill in: Amount (EUR)."),
        ("-1", "Ensure this value is greater than or equal to 0.01."),
    ],
    ids=["too much", "nothing", "less than nothing"],
)
def test_what_cannot_be_given_back_is_said(photographer, service, page, amount, sentence):
    form = Page(photographer.get(give_back(page))).fields

    response = photographer.post(give_back(page), form | {"amount": amount})

    assert (response.status_code, Page(response).errors) == (400, [sentence])
    assert Payment.objects.count() == 1


def test_nothing_is_given_back_while_the_service_is_away_nor_by_a_page_that_nobody_paid_on(
    photographer, service, order, page
):
    service.status = 500
    form = Page(photographer.get(give_back(page))).fields

    response = photographer.post(give_back(page), form)

    assert Page(response).errors[0].startswith("The card service does not answer just now.")
    assert Payment.objects.get().amount == DEPOSIT
    assert photographer.get(give_back(a_page(order, name="cs_2"))).status_code == 404


def test_a_message_to_be_looked_at_stands_on_the_queue_until_it_was(photographer, day, order):
    a_page(order)
    take(paid(amount=4000))
    queue = reverse("studio:day", args=[day.pk])
    sentence = "€40.00 came where €42.50 was asked. What came was entered."
    assert sentence in Page(photographer.get(queue)).text
    shown = Page(photographer.get(reverse("studio:cards")))
    assert sentence in shown.text
    assert reverse("studio:order", args=[order.reference]) in shown.links

    photographer.post(reverse("studio:card_looked", args=[CardNotice.objects.get().pk]))

    assert sentence not in Page(photographer.get(queue)).text
    assert "Nothing has to be looked at." in Page(photographer.get(reverse("studio:cards"))).text
    assert CardNotice.objects.get().looked_at is not None
