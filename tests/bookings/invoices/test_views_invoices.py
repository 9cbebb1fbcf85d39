"""The invoices of an order on the photographer's side: issued, read, taken back, and whom they are made out to."""

import pytest
from django.urls import reverse

from bookings.changes.services import sittings
from bookings.invoices.models import Invoice
from bookings.invoices.services import credit_notes
from bookings.invoices.services import issuing as invoices
from bookings.orders.models import Client, Order
from tests import builders
from tests.builders import NOW
from tests.reading.pages import Page

pytestmark = pytest.mark.django_db
COMPANY = {
    "company": "Nets and Lines Lda",
    "address": "Quay 3 \r\n\r\n Saltmarrow",
    "country": "PT",
    "tax_number": "PT111111110",
}
WRONG_COMPANIES = {
    "a country that is none": ({"country": "QQ"}, "Select a valid choice. QQ is not one of the available choices."),
    "a name too long": ({"company": "a" * 121}, "Ensure this value has at most 120 characters (it has 121)."),
    "a NUL": ({"address": "a\0"}, "Null characters are not allowed."),
}  # fmt: skip


@pytest.fixture
def order(day):
    return builders.a_paid_order(day, sizes=["quarter", "half"])


@pytest.fixture
def invoice(order):
    return invoices.issue(order_id=order.pk, now=NOW)


def of_order(order, name="order"):
    return reverse(f"studio:{name}", args=[order.reference])


def of(document, name):
    return reverse(f"studio:{name}", args=[document.pk])


def text_of(client, order):
    return Page(client.get(of_order(order))).text


def take_back(client, invoice, *lines, reason="One plate less"):
    sent = {"lines": [line.pk for line in lines or invoice.lines.all()], "reason": reason}
    return client.post(of(invoice, "take_back_invoice"), sent)


def test_an_invoice_is_issued_once_and_read_as_pdf_and_in_its_electronic_form(photographer, order):
    photographer.post(of_order(order, "issue"))

    again = photographer.post(of_order(order, "issue"))

    assert again.url == of_order(order)
    invoice = Invoice.objects.get()
    paper, file = photographer.get(of(invoice, "invoice")), photographer.get(of(invoice, "einvoice"))
    # ISO 32000-1, 7.5.2: a PDF file begins with its version.
    assert (paper.headers["Content-Type"], paper.content[:5]) == ("application/pdf", b"%PDF-")
    assert paper.headers["Content-Disposition"] == 'inline; filename="INV-2026-0001.pdf"'
    assert file.headers["Content-Type"] == "application/xml"
    assert file.headers["Content-Disposition"] == 'attachment; filename="INV-2026-0001.xml"'
    assert b"<ram:ID>INV-2026-0001</ram:ID>" in file.content


def test_an_order_without_a_name_is_neither_invoiced_nor_made_out_to_anybody(photographer, day):
    held = builders.a_held_order(day)

    issued = photographer.post(of_order(held, "issue"), follow=True)
    made_out = photographer.post(of_order(held, "made_out_to"), COMPANY)

    sentence = "Nobody has put a name to this order yet, so it cannot be invoiced."
    assert sentence in Page(issued).text
    assert Page(made_out).errors == [sentence]
    assert not Invoice.objects.exists()


@pytest.mark.parametrize("name", ["invoice", "einvoice", "take_back_invoice"])
def test_what_was_never_issued_is_not_found(photographer, order, name):
    assert photographer.get(reverse(f"studio:{name}", args=[999999])).status_code == 404


def test_where_there_is_no_electronic_form_the_order_says_why(photographer, day, order):
    builders.a_studio(tax_number="")
    invoice = invoices.issue(order_id=order.pk, now=NOW)

    response = photographer.get(of(invoice, "einvoice"))

    assert response.status_code == 409
    assert "INV-2026-0001 has no electronic form." in Page(response).text
    shown = Page(photographer.get(of_order(order)))
    assert "It was issued without a tax number of the studio" in shown.text
    assert of(invoice, "einvoice") not in shown.links


def test_an_invoice_is_taken_back_and_a_new_one_issued(photographer, order, invoice):
    answer = take_back(photographer, invoice)
    photographer.post(of_order(order, "issue"))

    assert answer.url == of_order(order)
    text = text_of(photographer, order)
    assert "Invoice INV-2026-0001 (PDF) INV-2026-0001 (XML) Taken back" in text
    assert "Credit note CRN-2026-0001 (PDF)" in text
    assert "Takes back INV-2026-0001: One plate less" in text
    assert "Take INV-2026-0002 back" in text


def test_only_what_is_left_of_an_invoice_is_offered_to_be_taken_back(photographer, invoice):
    first, second = invoice.lines.all()
    take_back(photographer, invoice, first)
    left = Page(photographer.get(of(invoice, "take_back_invoice"))).text
    take_back(photographer, invoice, second)

    nothing = Page(photographer.get(of(invoice, "take_back_invoice"))).text
    of_a_note = photographer.get(of(Invoice.objects.filter(kind="381").first(), "take_back_invoice"))

    assert "half plate, €125.00" in left
    assert "quarter plate" not in left
    assert "Credit notes have taken all of it back already." in nothing
    assert of_a_note.status_code == 404


@pytest.mark.parametrize(
    ("sent", "sentence"),
    [
        ({"reason": "Why"}, "Choose at least one line to take back."),
        ({"lines": ["first"], "reason": ""}, "Fill in: reason."),
        ({"lines": ["999999"], "reason": "Why"}, "One of these lines has been taken back meanwhile. Look again."),
        ({"lines": ["x"], "reason": "Why"}, "One of these lines has been taken back meanwhile. Look again."),
    ],
    ids=["no line", "no reason", "a line of nobody", "no number"],
)  # fmt: skip
def test_what_cannot_be_taken_back_is_said(photographer, invoice, sent, sentence):
    if sent.get("lines") == ["first"]:
        sent = sent | {"lines": [invoice.lines.first().pk]}

    response = photographer.post(of(invoice, "take_back_invoice"), sent)

    assert (response.status_code, Page(response).errors) == (400, [sentence])
    assert Invoice.objects.count() == 1


def test_an_order_that_was_cancelled_after_it_was_invoiced_says_what_is_to_do(photographer, order, invoice):
    cancelled(order, 5000)

    text = text_of(photographer, order)

    assert "The order was cancelled after it was invoiced. It costs €50.00 now" in text
    assert "INV-2026-0001 still says €210.00. Take that invoice back, then issue a new one." in text


def cancelled(order, kept):
    sittings.cancel(order_id=order.pk, now=NOW)
    Order.objects.filter(pk=order.pk).update(kept=kept)


@pytest.mark.parametrize("kept", [5000, 0])
def test_of_a_cancelled_order_the_kept_sum_is_invoiced_and_nothing_if_nothing_is_kept(
    photographer, order, kept
):
    cancelled(order, kept)
    before = text_of(photographer, order)

    photographer.post(of_order(order, "issue"))

    assert (
        ("What is invoiced is the sum that is kept." in before)
        == ("Issue the invoice" in before)
        == bool(kept)
    )
    assert [each.total + each.rounding for each in Invoice.objects.all()] == [5000] * bool(kept)
    assert "still says" not in text_of(photographer, order)


def test_an_invoice_is_made_out_to_a_company_which_is_shown_to_be_changed(photographer, order):
    answer = photographer.post(of_order(order, "made_out_to"), COMPANY)

    noted = Client.objects.values("company", "address", "country", "tax_number").get()
    assert answer.url == of_order(order)
    assert noted == COMPANY | {"address": "Quay 3\nSaltmarrow"}
    assert "Made out to Nets and Lines Lda." in text_of(photographer, order)
    fields = Page(photographer.get(of_order(order, "made_out_to"))).fields
    assert (fields["company"], fields["tax_number"]) == ("Nets and Lines Lda", "PT111111110")


@pytest.mark.parametrize(("changes", "sentence"), WRONG_COMPANIES.values(), ids=WRONG_COMPANIES)
def test_what_cannot_be_made_out_to_is_said_and_kept(photographer, order, changes, sentence):
    response = photographer.post(of_order(order, "made_out_to"), COMPANY | changes)

    page = Page(response)
    assert (response.status_code, page.errors) == (400, [sentence])
    assert page.fields["tax_number"] == "PT111111110"
    assert Client.objects.get().company == ""


def test_a_refusal_of_the_service_is_said_above_the_form(photographer, invoice, monkeypatch):
    monkeypatch.setattr(credit_notes, "broken_rules", lambda totals, tax_within: ("a sum is off.",))

    assert Page(take_back(photographer, invoice)).errors[0].endswith("was not issued: a sum is off.")
