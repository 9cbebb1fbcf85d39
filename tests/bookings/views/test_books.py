"""The pages of the books, as the photographer works with them."""

import io
from datetime import timedelta
from zipfile import ZipFile

import pytest
from django.contrib.auth.models import User
from django.urls import reverse

from bookings.models import Client, Invoice, InvoiceRun, Notice, NoticeKind, Payment
from bookings.services import due
from tests import builders
from tests.bookings.booked import a_credit_note, an_invoice, broad_day, issued, made_order
from tests.bookings.papers import flowing
from tests.bookings.views.reading import Page
from tests.builders import NOW

pytestmark = pytest.mark.django_db

TO_INVOICE = reverse("studio:to_invoice")
OPEN = reverse("studio:open_invoices")
KEY = "8d2f0c5a-6a0e-4a55-9a2e-0e7c1b7d9f11"


@pytest.fixture
def day():
    return broad_day()


def read(client, name, *facts, **asked):
    return client.get(reverse(f"studio:{name}", args=facts), asked)


def body(response):
    return b"".join(response.streaming_content)


def following(client, response):
    return Page(client.get(response.url)).text


def settle(client, invoice, **sent):
    return client.post(reverse("studio:settle", args=[invoice.pk]), {"key": KEY, "reference": ""} | sent)


def mail(client, invoice, **sent):
    return client.post(reverse("studio:mail_paper", args=[invoice.pk]), {"turn": "1"} | sent)


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


def test_all_that_waits_is_ticked_and_issued_with_one_press(photographer, day):
    orders = [made_order(day), made_order(day, number=4)]
    page = Page(photographer.get(TO_INVOICE))
    assert page.fields["orders"] in [str(order.pk) for order in orders]
    assert [order.reference in page.text for order in orders] == [True, True]

    response = photographer.post(TO_INVOICE, {"orders": [order.pk for order in orders], "by_mail": "on"})

    assert response.url == reverse("studio:invoice_run", args=[InvoiceRun.objects.get().pk])
    assert "0 of 2 done" in following(photographer, response)
    due.drain(now=NOW)
    assert "2 of 2 done: 2 issued, 0 refused." in following(photographer, response)
    assert Notice.objects.filter(kind=NoticeKind.INVOICE).count() == 2


def test_a_run_under_way_is_looked_at_again_and_a_finished_one_is_not(photographer, day):
    photographer.post(TO_INVOICE, {"orders": [made_order(day).pk]})
    run = InvoiceRun.objects.get()
    before = read(photographer, "invoice_run", run.pk).content.decode()
    state = read(photographer, "invoice_run_state", run.pk).json()

    due.drain(now=NOW)

    after = read(photographer, "invoice_run", run.pk).content.decode()
    assert ('http-equiv="refresh"' in before, "data-state-at" in before) == (True, True)
    assert ('http-equiv="refresh"' in after, "data-state-at" in after) == (False, False)
    assert f'data-state="{state["state"]}"' in before
    assert read(photographer, "invoice_run_state", run.pk).json() != state


def test_the_papers_of_a_run_come_in_one_file(photographer, day):
    photographer.post(TO_INVOICE, {"orders": [made_order(day).pk]})
    due.drain(now=NOW)

    response = read(photographer, "invoice_run_papers", InvoiceRun.objects.get().pk)

    assert response.headers["Content-Type"] == "application/zip"
    with ZipFile(io.BytesIO(body(response))) as archive:
        assert archive.namelist() == ["INV-2026-0001.pdf"]


def test_nothing_ticked_is_said(photographer, day):
    made_order(day)

    response = photographer.post(TO_INVOICE, {})

    assert (response.status_code, Page(response).errors) == (400, ["Tick at least one order."])
    assert not InvoiceRun.objects.exists()


def test_orders_that_were_invoiced_meanwhile_are_answered_with_a_sentence(photographer, day):
    order = made_order(day)
    issued(order)

    response = photographer.post(TO_INVOICE, {"orders": [order.pk]})

    assert "None of these orders waits for an invoice any more." in following(photographer, response)


def test_an_open_invoice_is_paid_with_one_press(photographer, day):
    invoice = an_invoice(day)
    assert "INV-2026-0001, Ines Madrugada Left to pay €42.50 of €85.00" in Page(photographer.get(OPEN)).text

    response = settle(photographer, invoice, reference=" bank 17 ")

    text = following(photographer, response)
    assert "INV-2026-0001 is paid: entered in the ledger." in text
    assert "Nothing is left to pay on any invoice." in text
    entered = Payment.objects.latest("pk")
    assert (entered.amount, entered.method, entered.reference) == (4250, "transfer", "bank 17")
    assert entered.recorded_by.username == "operator"


def test_the_same_press_twice_without_a_reference_is_one_payment(photographer, day):
    invoice = an_invoice(day)
    settle(photographer, invoice)
    settle(photographer, invoice)

    assert Payment.objects.count() == 2


@pytest.mark.parametrize(
    ("sent", "sentence"),
    [
        pytest.param({"key": "x"}, "Enter a valid UUID.", id="a key that is none"),
        pytest.param({"reference": "x" * 65}, "Ensure this value has at most 64 characters", id="too long"),
        pytest.param({"reference": "a\0"}, "Null characters are not allowed.", id="a NUL"),
    ],
)
def test_a_payment_that_cannot_be_is_said(photographer, day, sent, sentence):
    response = settle(photographer, an_invoice(day), **sent)

    assert sentence in following(photographer, response)
    assert Payment.objects.count() == 1


def test_a_credit_note_has_nothing_to_be_paid(photographer, day):
    assert settle(photographer, a_credit_note(an_invoice(day))).status_code == 404


@pytest.mark.parametrize("turn", ["1", "", "x", "-1", "9" * 40, "²"], ids=str)
def test_a_paper_is_mailed_once_however_it_is_pressed(photographer, day, turn):
    invoice = an_invoice(day)

    mail(photographer, invoice, turn=turn)
    response = mail(photographer, invoice)

    assert "Invoice INV-2026-0001 goes out by mail." in following(photographer, response)
    assert Notice.objects.filter(kind=NoticeKind.INVOICE).count() == 1


def test_a_paper_is_mailed_again_by_the_button_that_says_so(photographer, day):
    invoice = an_invoice(day)
    mail(photographer, invoice, **{"from": "open"})
    assert "Mail it again" in Page(photographer.get(OPEN)).text

    response = mail(photographer, invoice, turn="2")

    assert response.url == reverse("studio:order", args=[invoice.order.reference])
    assert "Mail INV-2026-0001 again" in following(photographer, response)
    assert Notice.objects.filter(kind=NoticeKind.INVOICE).count() == 2


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
        pytest.param("", "2026-11-30", "Fill in: From.", id="no beginning"),
        pytest.param(
            "2026-11-30", "x", "Up to and with: choose a date, for example 2026-11-28.", id="no date"
        ),
        pytest.param(
            "2026-11-30",
            "2026-11-01",
            "These days end before they begin. Choose a later date.",
            id="the wrong way round",
        ),
        pytest.param(
            "0001-01-01",
            "2026-11-30",
            "Choose a date between the years 2000 and 2999.",
            id="before all years",
        ),
    ],
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


def test_an_erased_client_has_no_statement(photographer, day):
    order = an_invoice(day).order
    Client.objects.update(name="", email="")

    for name in ("statement", "statement_paper"):
        assert read(photographer, name, order.client_id).status_code == 404
    assert Invoice.objects.get().buyer["name"] == "Ines Madrugada"


def test_an_overdue_invoice_is_told_on_the_queue(photographer, day, clock):
    builders.a_studio(payment_days=2)
    an_invoice(day)
    clock.move_to(NOW + timedelta(days=3))
    photographer.force_login(User.objects.get())  # who was signed in is no longer after so long

    text = Page(read(photographer, "day", day.pk)).text

    assert "is overdue since Monday 23 November 2026: €42.50 left." in text
