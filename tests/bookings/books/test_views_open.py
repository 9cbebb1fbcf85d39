"""The pages of the books, as the photographer works with them: numbers, files for the accountant, statements."""

from datetime import timedelta

import pytest
from django.contrib.auth.models import User
from django.urls import reverse

from bookings.orders.models import Client
from tests import builders
from tests.builders import NOW
from tests.builders.invoices import an_invoice, made_order
from tests.reading.pages import Page
from tests.reading.papers import flowing
from tests.reading.studio_pages import body, read

pytestmark = pytest.mark.django_db


def test_the_books_say_what_waits_and_what_is_open(photographer, day, clock):
    builders.a_studio(payment_days=2)
    made_order(day)
    an_invoice(day)
    clock.move_to(NOW + timedelta(days=3))
    photographer.force_login(User.objects.get())  # who was signed in is no longer after so long

    page = Page(read(photographer, "books"))

    assert "To be invoiced 1 order " in page.text
    assert "1 invoice, 1 of them overdue" in page.text
    assert (page.fields["since"], page.fields["until"]) == ("2026-07-01", "2026-09-30")
    queue = Page(read(photographer, "day", day.pk)).text
    assert "is overdue since Monday 23 November 2026: €42.50 left." in queue


def test_no_gap_is_said_only_where_there_is_none(photographer, day):
    invoice = an_invoice(day)
    assert "No gap: the numbers 1 to 1 are all there, each once." in Page(read(photographer, "numbers")).text

    type(invoice.series).objects.update(last=3)

    text = Page(read(photographer, "numbers")).text
    assert "Missing: 2 to 3." in text
    assert "No gap" not in text


@pytest.mark.parametrize(
    "year", ["", "x", "0", "20260", "9" * 5000, "1e3", "-026"], ids=lambda year: year[:6]
)
def test_a_year_that_is_none_shows_the_last_one(photographer, day, year):
    an_invoice(day)

    assert "Numbers of 2026" in Page(read(photographer, "numbers", year=year)).text


def test_the_files_for_the_accountant_are_named_for_their_period(photographer, day):
    an_invoice(day)
    period = {"since": "2026-11-01", "until": "2026-11-30"}

    found = {name: read(photographer, f"{name}_file", **period) for name in ("documents", "payments")}

    for name, response in found.items():
        assert response.headers["Content-Type"].startswith("text/csv")
        assert f"{name}-2026-11-01-to-2026-11-30.csv" in response.headers["Content-Disposition"]
        assert len(body(response).splitlines()) == 2
    assert b"INV-2026-0001" in body(read(photographer, "numbers_file", year="2026"))


@pytest.mark.parametrize(
    ("since", "until", "sentence"),
    [
        ("", "2026-11-30", "Fill in: From."),
        ("2026-11-30", "x", "Up to and with: choose a date, for example 2026-11-28."),
        ("2026-11-30", "2026-11-01", "These days end before they begin. Choose a later date."),
        ("0001-01-01", "2026-11-30", "Choose a date between the years 2000 and 2999."),
    ],
    ids=["no beginning", "no date", "the wrong way round", "before all years"],
)
@pytest.mark.parametrize("name", ["documents_file", "payments_file"])
def test_a_period_that_is_none_is_said_on_the_page(photographer, name, since, until, sentence):
    response = read(photographer, name, since=since, until=until)

    assert (response.status_code, Page(response).errors) == (400, [sentence])


def test_a_statement_is_found_read_and_printed(photographer, day):
    order = an_invoice(day).order
    page = Page(read(photographer, "statements", q="madrugada"))
    assert reverse("studio:statement", args=[order.client_id]) in page.links

    text = Page(read(photographer, "statement", order.client_id)).text
    paper = flowing(read(photographer, "statement_paper", order.client_id).content)

    assert "Owed on invoices €42.50" in text
    assert "Statement For Ines Madrugada" not in text
    assert "Owed on invoices €42.50" in paper
    assert "20 Nov 2026 Invoice INV-2026-0001" in paper
    Client.objects.update(name="", email="")
    for name in ("statement", "statement_paper"):
        assert read(photographer, name, order.client_id).status_code == 404
