"""The page of the cash box and of a day's takings."""

import pytest
from django.urls import reverse

from bookings.payments.models import CashUp
from tests import builders
from tests.reading.pages import Page

pytestmark = pytest.mark.django_db


@pytest.fixture
def order(day):
    """An order whose deposit of 42.50 came in by cash."""
    return builders.a_paid_order(day)


def cash_page():
    return reverse("studio:cash")


def count(client, **sent):
    fields = Page(client.get(cash_page())).fields
    return client.post(cash_page(), {"after": fields["after"], "came_in": fields["came_in"], **sent})


def test_the_page_says_what_should_be_in_the_box_and_a_count_that_agrees_is_kept(photographer, order):
    page = Page(photographer.get(cash_page()))
    assert "Never counted before €0.00 Cash by the ledger since then €42.50 Together €42.50" in page.text
    assert "The box was never counted." in page.text

    response = count(photographer, counted="92.50", put_in="100", taken_out="50.00")

    assert response.url == cash_page()
    found = CashUp.objects.get()
    facts = (found.counted, found.put_in, found.difference, found.counted_by.username)
    assert facts == (9250, 5000, 0, "operator")
    assert "Together €92.50" in Page(photographer.get(cash_page())).text


@pytest.mark.parametrize(
    ("counted", "words", "difference"),
    [("42.00", "€0.50 less", -50), ("43.50", "€1.00 more", 100)],
    ids=["short", "over"],
)
def test_a_difference_is_kept_as_it_is_with_a_note_only(photographer, order, counted, words, difference):
    response = count(photographer, counted=counted)

    page = Page(response)
    assert (response.status_code, page.fields["counted"]) == (400, counted)
    assert page.errors == [
        f"The box holds {words} than it should. Count again, or say here what you know of it."
    ]
    assert not CashUp.objects.exists()
    count(photographer, counted=counted, note="a coin fell behind the bench")
    found = CashUp.objects.get()
    assert (found.difference, found.note) == (difference, "a coin fell behind the bench")


@pytest.mark.parametrize(
    ("sent", "sentence"),
    [
        ({"counted": ""}, "Fill in: Counted (EUR)."),
        ({"counted": "-1"}, "Ensure this value is greater than or equal to 0."),
        ({"counted": "1.005"}, "This currency has 2 decimal places."),
        ({"counted": "42.50", "taken_out": "x"}, "Enter a number."),
    ],
    ids=["nothing", "below nothing", "tenths of a cent", "a word"],
)
def test_a_count_that_cannot_be_is_said(photographer, order, sent, sentence):
    response = count(photographer, **sent)

    assert (response.status_code, Page(response).errors) == (400, [sentence])


def test_the_takings_are_those_of_the_chosen_date(photographer, order):
    assert "Cash €42.50 Came in together €42.50" in Page(photographer.get(cash_page())).text

    page = Page(photographer.get(cash_page(), {"on": "2026-11-19"}))

    assert "Nothing was entered in the ledger for Thursday 19 November 2026." in page.text


@pytest.mark.parametrize("on", ["x", "", "9999-12-31", "0001-01-01", "2026-02-30"])
def test_a_date_that_cannot_be_is_said(photographer, order, on):
    response = photographer.get(cash_page(), {"on": on})

    assert response.status_code == 400
    assert len(Page(response).errors) == 1
