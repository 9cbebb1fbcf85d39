"""The invoice on paper: its frozen rows and nothing else.

Outside: EN 16931 (BT-.. and BR-CO-10, 13, 14, 15, 16; wording read in public copies of its validation rules), sums
recomputed here in fractions.
"""

import re
from datetime import UTC, date, datetime

import pytest

from bookings.invoices.models import Invoice, InvoiceLine, InvoiceSeries
from bookings.invoices.paper import invoice_pdf
from bookings.invoices.services import issuing as invoices
from bookings.orders.models import Client
from bookings.pricing.models import Extra, SizePrice, TaxClass
from tests import builders
from tests.reading.papers import flowing, pages

pytestmark = pytest.mark.django_db
LATER = datetime(2026, 12, 3, 15, 0, tzinfo=UTC)


def a_mixed_order():
    """Three rates and odd prices, so that lines and taxes round in both directions."""
    reduced = TaxClass.objects.create(name="Reduced", category="S", rate_bp=600)
    exempt = TaxClass.objects.create(name="Exempt", category="E", rate_bp=0, exemption_reason="Exempt by law")
    scan = Extra.objects.create(kind="scan", name="Scan", amount=1999, tax_class=reduced)
    post = Extra.objects.create(kind="post", name="Post, insured", amount=777, tax_class=exempt)
    case = builders.an_extra(amount=3333)
    return builders.a_paid_order(
        builders.a_day(), sizes=["sixth", "sixth", "whole"], extras={scan: 3, post: 1, case: 1}
    )


def a_long_invoice(lines):
    """An invoice of any length, written as the rows that issuing would freeze."""
    order = builders.a_placed_order(builders.a_day())
    series = InvoiceSeries.objects.create(prefix="INV", year=2026, last=1)
    invoice = Invoice.objects.create(
        series=series, number=1, order=order, issued_on=date(2026, 11, 20), supplied_on=date(2026, 11, 28),
        currency="EUR",
        seller={"name": "Gannet Lane Plate Rooms", "address": "4 Gannet Lane", "country": "PT", "tax_number": "",
                "email": "rooms@example.org"},
        buyer={"name": "Ines Madrugada", "email": "ines@example.org"},
        net=lines * 1000, tax=lines * 230, total=lines * 1230, prepaid=0, rounding=0, due=lines * 1230,
        breakdown=[{"category": "S", "rate_bp": 2300, "taxable": lines * 1000, "tax": lines * 230}],
    )  # fmt: skip
    InvoiceLine.objects.bulk_create(
        InvoiceLine(invoice=invoice, position=position, text=f"Line {position:03d}", quantity=1, unit_amount=1230,
                    net=1000, tax_category="S", tax_rate_bp=2300)
        for position in range(1, lines + 1)
    )  # fmt: skip
    return invoice


def test_the_invoice_prints_its_frozen_rows():
    invoice = invoices.issue(order_id=a_mixed_order().pk, now=LATER)

    text = flowing(invoice_pdf(invoice))

    for line in invoice.lines.all():
        assert f"{line.text} {line.quantity} €{line.unit_amount / 100:.2f}" in text
        assert f"€{line.net / 100:.2f}" in text
    for words in (
        "INV-2026-0001",
        "tax number PT999999990",
        "Issued Date of supply".upper(),
        "Thursday 3 December 2026",
        "Saturday 28 November 2026",
        f"Sum without tax €{invoice.net / 100:.2f}",
        f"Tax €{invoice.tax / 100:.2f}",
        f"Total with tax €{invoice.total / 100:.2f}",
        f"Paid already €{invoice.prepaid / 100:.2f}",
        f"Due €{invoice.due / 100:.2f}",
        *(f"€{group['taxable'] / 100:.2f} €{group['tax'] / 100:.2f}" for group in invoice.breakdown),
    ):
        assert words in text


@pytest.mark.parametrize(
    ("price", "rounding"),
    [
        (12300, 0),  # 100.00 + 23.00
        (8500, -1),  # 69.11 + 15.90 = 85.01
    ],
)
def test_a_rounding_row_stands_only_where_something_was_rounded(price, rounding):
    SizePrice.objects.filter(size=builders.a_size()).update(amount=price)
    invoice = invoices.issue(order_id=builders.a_paid_order(builders.a_day()).pk, now=LATER)

    text = flowing(invoice_pdf(invoice))

    assert invoice.rounding == rounding
    assert re.findall(r"Rounding to the prices told (\S+)", text) == (["-€0.01"] if rounding else [])


def test_an_invoice_is_printed_the_same_after_names_and_prices_have_changed():
    order = a_mixed_order()
    invoice = invoices.issue(order_id=order.pk, now=LATER)
    before = invoice_pdf(invoice)

    builders.a_studio(name="Another Name", address="Elsewhere", email="other@example.org", tax_number="")
    Client.objects.update(name="Erased", email="erased@example.org")
    builders.pay(order, 100, now=LATER)
    after = invoice_pdf(Invoice.objects.get(pk=invoice.pk))

    assert before == after


@pytest.mark.parametrize(("lines", "least", "most"), [(1, 1, 1), (20, 1, 2), (60, 2, 4)])
def test_a_long_invoice_repeats_its_head_and_counts_its_pages(lines, least, most):
    paper = invoice_pdf(a_long_invoice(lines))

    count = pages(paper)
    assert least <= count <= most
    texts = [flowing(paper, "-f", str(page), "-l", str(page)) for page in range(1, count + 1)]
    assert [text for text in texts if "Line 0" in text and "Each, with tax" not in text] == []
    assert all(sum(text.count(f"Line {line:03d}") for text in texts) == 1 for line in range(1, lines + 1))
    assert all(f"{page} of {count}" in text for page, text in enumerate(texts, start=1))


@pytest.mark.parametrize("lines", range(12, 21))
def test_the_sums_are_never_torn_between_two_pages(lines):
    paper = invoice_pdf(a_long_invoice(lines))

    texts = [flowing(paper, "-f", str(page), "-l", str(page)) for page in range(1, pages(paper) + 1)]
    assert [("Sum without tax" in text) for text in texts] == [("Due €" in text) for text in texts]
