"""What an invoice or credit note says on paper besides its sums, and how amounts are written where the studio is.

Outside: amounts and dates by the CLDR (through Babel), and how they are written in these places, from memory.
"""

from datetime import UTC, datetime

import pytest

from bookings.invoices.paper import invoice_pdf
from bookings.invoices.services import credit_notes
from bookings.invoices.services import issuing as invoices
from bookings.orders.models import OrderLine
from bookings.orders.services import clients as people
from bookings.pricing.models import Discount, TaxClass
from tests import builders
from tests.builders.invoices import broad_day
from tests.reading.papers import flowing, off_the_page

pytestmark = pytest.mark.django_db
LATER = datetime(2026, 12, 3, 15, 0, tzinfo=UTC)
NO_BREAK = "\u00a0"


def an_invoice(*, to=None, day=None, **asked):
    order = builders.a_paid_order(day or builders.a_day(), **asked)
    if to:
        people.make_out_to(order_id=order.pk, to=to)
    return invoices.issue(order_id=order.pk, now=LATER)


def read(document):
    return flowing(invoice_pdf(document)).replace(NO_BREAK, " ")


def test_an_invoice_says_until_when_and_to_which_account_it_is_to_be_paid_while_something_is_due():
    builders.a_studio(account="PT50 0002 0123 1234 5678 9015 4", payment_days=10)
    day = broad_day()
    open_, paid, overpaid = (
        read(an_invoice(day=day, **asked)) for asked in ({}, {"amount": 8500}, {"amount": 9000})
    )

    asked = "Please pay €42.50 by Sunday 13 December 2026 to the account PT50 0002 0123 1234 5678 9015 4,"
    assert f"{asked} and name INV-2026-0001." in open_
    assert ("Due €0.00" in paid, "To give back €5.00" in overpaid) == (True, True)
    assert "Please pay" not in paid + overpaid


def test_an_invoice_names_whom_it_is_made_out_to_and_the_country_where_it_is_another():
    day = broad_day()
    company = read(
        an_invoice(
            day=day, to=people.MadeOutTo("Nets & Lines Lda", "Quay 3\nSaltmarrow", "ES", "ESX1234567X")
        )
    )
    neighbour = read(an_invoice(day=day, to=people.MadeOutTo("", "Quay 3\nSaltmarrow", "PT", "")))

    assert "Nets & Lines Lda" in company
    assert "Quay 3 Saltmarrow Spain Tax number ESX1234567X ines@example.org" in company
    assert neighbour.count("Portugal") == 1


def test_an_exempt_line_is_printed_with_its_reason():
    post = builders.an_extra("Post", amount=777)
    post.tax_class = TaxClass.objects.create(
        name="Exempt", category="E", rate_bp=0, exemption_reason="Exempt by article 9"
    )
    post.save()

    text = read(an_invoice(extras={post: 1}))

    assert "exempt: Exempt by article 9 €7.77 €0.00" in text


def test_a_discount_is_printed_with_a_minus_sign():
    """Written as the row that issuing freezes: one that takes off 10.00 of 85.00."""
    order = builders.a_paid_order(builders.a_day())
    taxed = {"tax_class": order.lines.get().tax_class, "tax_category": "S", "tax_rate_bp": 2300}
    facts = {"position": 2, "kind": "discount", "text": "Of the house", "quantity": -1, "unit_amount": 1000}
    of = Discount.objects.create(code="HOUSE", text="Of the house", amount=1000, holds_from=builders.SATURDAY)
    OrderLine.objects.create(order=order, discount=of, **facts, **taxed)

    text = read(invoices.issue(order_id=order.pk, now=LATER))

    assert "Of the house -1 €10.00 23 % -€8.13" in text
    assert "Due €32.50" in text


def test_a_credit_note_says_what_it_takes_back_and_why():
    invoice = an_invoice(sizes=["quarter", "half"])
    note = credit_notes.issue(
        invoice_id=invoice.pk, reason="One plate less", line_ids=[invoice.lines.first().pk], now=LATER
    )

    text = read(note)

    assert "Credit note CRN-2026-0001" in text
    assert (
        "Takes back what is listed here of invoice INV-2026-0001 of Thursday 3 December 2026: One plate less"
    ) in text
    assert "Taken back €85.00" in text
    assert "Paid already" not in text
    assert "half plate" not in text


@pytest.mark.parametrize(
    ("locale", "amount", "month"),
    [
        ("pt_PT", "10 085,00 €", "dezembro"),
        ("de_DE", "10.085,00 €", "Dezember"),
        ("en_US", "€10,085.00", "December"),
    ],
)
def test_amounts_and_dates_are_written_as_the_studio_writes_them(locale, amount, month):
    builders.a_studio(locale=locale)
    frame = builders.an_extra("Frame", "frame", 1_000_000)

    text = read(an_invoice(extras={frame: 1}, amount=1_008_500))

    assert f" {amount} " in text
    assert month in text


def test_long_names_stay_on_the_page():
    to = people.MadeOutTo("Wolfeschlegelsteinhausen" * 5, "Rua " * 60, "ES", "ES" + "1" * 38)

    assert off_the_page(invoice_pdf(an_invoice(to=to, name="W" * 120))) == []
