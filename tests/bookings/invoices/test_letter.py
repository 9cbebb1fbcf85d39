"""The letter that carries an invoice or a credit note: its words, its paper, and how often it goes.

Outside: the letter is read back by Python's `email`, the paper by poppler. An order of one quarter plate comes to
85.00, and half of it is the deposit.
"""

from datetime import timedelta

import pytest
from django.core import mail as outbox

from bookings.changes.services import sittings
from bookings.invoices import letter as invoice_letter
from bookings.invoices.services import issuing as invoice_letters
from bookings.letters.services import sending as notices
from bookings.outbox.models import Notice
from tests import builders
from tests.builders import NOW
from tests.builders.invoices import a_credit_note, an_invoice
from tests.reading.letters import flowing, parsed, plain, words_of_html
from tests.reading.papers import flowing as paper_words

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def _address(settings):
    settings.SITE_ADDRESS = "https://rooms.example.org"


@pytest.fixture
def invoice():
    return an_invoice(builders.a_day())


def mailed(paper, *, turn=1, now=NOW):
    return invoice_letters.mail(invoice_id=paper.pk, turn=turn, now=now)


def letter_of(paper):
    return parsed(mailed(paper))


def test_it_brings_the_paper_and_says_what_is_left_to_pay_by_when_and_where(invoice):
    builders.a_studio(account="PT50000000000000000000000")

    letter = letter_of(invoice)

    [part] = [part for part in letter.walk() if part.get_content_type() == "application/pdf"]
    assert part.get_filename() == "INV-2026-0001.pdf"
    assert "Invoice INV-2026-0001" in paper_words(part.get_payload(decode=True))
    assert letter["Subject"] == "Invoice INV-2026-0001"
    text = flowing(letter)
    assert "comes invoice INV-2026-0001 over €85.00 for your sitting on Saturday 28 November 2026." in text
    assert "Still to pay: €42.50 Please pay by: Friday 4 December 2026" in text
    assert "To the account: PT50000000000000000000000" in text
    assert f"Reference: {invoice.order.reference}" in text


@pytest.mark.parametrize(
    ("settle", "sentence"),
    [
        (lambda invoice: builders.pay(invoice.order, 4250), "Everything on it has been paid. Thank you."),
        (a_credit_note, "nothing is left to pay on it"),
    ],
    ids=["paid", "taken back"],
)
def test_it_does_not_ask_for_what_has_come_or_was_taken_back(invoice, settle, sentence):
    settle(invoice)

    text = flowing(letter_of(invoice))

    assert sentence in text
    assert "Still to pay" not in text


def test_a_credit_note_says_what_it_takes_back_and_why_and_its_series_is_no_folder():
    builders.a_studio(invoice_series="A/../B")
    invoice = an_invoice(builders.a_day())
    assert invoice_letter.file_name(invoice) == "A-..-B-2026-0001.pdf"

    letter = letter_of(a_credit_note(invoice))

    assert letter["Subject"] == "Credit note CRN-2026-0001"
    text = flowing(letter)
    assert "comes credit note CRN-2026-0001 over €85.00." in text
    assert "of invoice A/../B-2026-0001: The plate cracked on its way home." in text
    assert "Still to pay" not in text


@pytest.mark.parametrize("state", ["open", "paid", "credited", "credit note", "with an account"])
def test_plain_text_and_html_say_the_same_words(invoice, state):
    if state == "with an account":
        builders.a_studio(account="PT50000000000000000000000")
    if state == "paid":
        builders.pay(invoice.order, 4250)
    paper = a_credit_note(invoice) if "credit" in state else invoice

    letter = letter_of(paper if state == "credit note" else invoice)

    assert words_of_html(letter) == [word for word in plain(letter).split() if word != "-"]
    assert [line for line in plain(letter).splitlines() if len(line) > 72] == []
    assert "\n\n\n" not in plain(letter)


@pytest.mark.parametrize("cancelled", [False, True])
def test_it_goes_out_with_the_due_letters_even_when_the_order_was_cancelled(invoice, cancelled):
    if cancelled:
        sittings.cancel(order_id=invoice.order_id, now=NOW)
    letter = mailed(invoice)

    notices.send_due(now=NOW)

    assert [each.extra_headers["Message-ID"] for each in outbox.outbox].count(letter.message_id) == 1
    assert Notice.objects.get(pk=letter.pk).sent_at == NOW


def test_the_same_letter_is_sent_again_only_in_the_turn_that_follows(invoice):
    first = mailed(invoice, turn=7)
    assert first.occasion == "INV-2026-0001"
    assert mailed(invoice, now=NOW + timedelta(hours=1)) == first

    second = mailed(invoice, turn=2)

    assert mailed(invoice, turn=2) == second != first
    assert second.occasion == "INV-2026-0001 no. 2"
