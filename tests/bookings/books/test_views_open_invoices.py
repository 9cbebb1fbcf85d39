"""Open invoices, as the photographer works with them: paid with one press, and mailed."""

import pytest
from django.urls import reverse

from bookings.outbox.models import Notice, NoticeKind
from bookings.payments.models import Payment
from tests.builders.invoices import a_credit_note, an_invoice
from tests.reading.pages import Page
from tests.reading.studio_pages import following

pytestmark = pytest.mark.django_db

OPEN = reverse("studio:open_invoices")
KEY = "8d2f0c5a-6a0e-4a55-9a2e-0e7c1b7d9f11"


def settle(client, invoice, **sent):
    return client.post(reverse("studio:settle", args=[invoice.pk]), {"key": KEY, "reference": ""} | sent)


def mail(client, invoice, **sent):
    return client.post(reverse("studio:mail_paper", args=[invoice.pk]), {"turn": "1"} | sent)


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


def test_the_same_press_twice_without_a_reference_is_one_payment_and_a_credit_note_is_not_paid(
    photographer, day
):
    invoice = an_invoice(day)
    for _ in range(2):
        settle(photographer, invoice)

    assert settle(photographer, a_credit_note(invoice)).status_code == 404
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
