"""The electronic form of issued rows: read back by the terms of EN 16931, it says what the rows say.

Outside: where each term stands in a Cross Industry Invoice (syntax binding of EN 16931-3-3, from memory), and the
public schema and rules (tests/bookings/invoices/einvoice/checks.py).
"""

from datetime import timedelta
from decimal import Decimal

import pytest
from lxml import etree

from bookings.errors import EInvoiceRefused
from bookings.invoices.models import Invoice
from bookings.invoices.selectors.einvoices import einvoice
from bookings.invoices.services import credit_notes
from bookings.invoices.services import issuing as invoices
from bookings.orders.services import clients as people
from bookings.pricing.models import TaxClass
from tests import builders
from tests.bookings.invoices.einvoice import checks
from tests.builders import NOW
from tests.builders.invoices import broad_day

pytestmark = pytest.mark.django_db
SUMS = {
    "net": "LineTotalAmount",
    "tax": "TaxTotalAmount",
    "total": "GrandTotalAmount",
    "prepaid": "TotalPrepaidAmount",
    "rounding": "RoundingAmount",
    "due": "DuePayableAmount",
}


def an_invoice(**asked):
    """Two rates and an exempt line, made out to a company, part of it paid."""
    extras = {}
    for name, amount, facts in (
        ("Scan", 1999, {"category": "S", "rate_bp": 600}),
        ("Post", 777, {"category": "E", "rate_bp": 0, "exemption_reason": "Exempt by law"}),
    ):
        extra = builders.an_extra(name, amount=amount)
        extra.tax_class = TaxClass.objects.create(name=name, **facts)
        extra.save()
        extras[extra] = 3
    builders.a_studio(account="PT50 0002 0123 1234 5678 9015 4")
    order = builders.a_paid_order(builders.a_day(), sizes=["sixth", "half"], extras=extras)
    to = people.MadeOutTo("Nets & Lines Lda", "Quay 3\n\nSaltmarrow", "es", "ESX1234567X")
    people.make_out_to(order_id=order.pk, to=to)
    return invoices.issue(order_id=order.pk, now=NOW)


def read(root, path):
    return [found.text for found in root.iterfind(f".//{{*}}{path.replace('/', '/{*}')}")]


def cents(text):
    return int(Decimal(text) * 100)


def test_read_back_it_says_what_the_rows_say():
    invoice = an_invoice()

    xml = einvoice(Invoice.objects.get())

    assert (checks.broken_schema(xml), checks.broken_rules(xml)) == ([], [])
    root = etree.fromstring(xml)
    assert read(root, "SellerTradeParty/Name") == ["Gannet Lane Plate Rooms"]
    assert read(root, "BuyerTradeParty/Name") == ["Nets & Lines Lda"]
    assert read(root, "PersonName") == ["Ines Madrugada"]
    assert read(root, "BuyerTradeParty/PostalTradeAddress/LineTwo") == ["Saltmarrow"]
    assert read(root, "CountryID") == ["PT", "ES"]
    assert read(root, "SpecifiedTaxRegistration/ID") == ["PT999999990", "ESX1234567X"]
    assert read(root, "SpecifiedTradeSettlementPaymentMeans/TypeCode") == ["58"]
    assert read(root, "IBANID") == ["PT50000201231234567890154"]
    assert read(root, "ExchangedDocument/ID") == [invoice.label]
    assert read(root, "ExchangedDocument/TypeCode") == ["380"]
    assert read(root, "InvoiceCurrencyCode") == ["EUR"]
    dates = [invoice.issued_on, invoice.supplied_on, invoice.due_on]
    assert read(root, "DateTimeString") == [f"{on:%Y%m%d}" for on in dates]
    sums = "SpecifiedTradeSettlementHeaderMonetarySummation"
    for name, term in SUMS.items():
        assert [cents(text) for text in read(root, f"{sums}/{term}")] == [getattr(invoice, name)]
    lines = zip(
        read(root, "SpecifiedTradeProduct/Name"),
        map(int, read(root, "BilledQuantity")),
        map(cents, read(root, "SpecifiedTradeSettlementLineMonetarySummation/LineTotalAmount")),
        read(root, "SpecifiedLineTradeSettlement/ApplicableTradeTax/CategoryCode"),
        map(cents, read(root, "SpecifiedLineTradeSettlement/ApplicableTradeTax/RateApplicablePercent")),
        strict=True,
    )
    assert list(lines) == list(
        invoice.lines.values_list("text", "quantity", "net", "tax_category", "tax_rate_bp")
    )
    taxes = "ApplicableHeaderTradeSettlement/ApplicableTradeTax"
    groups = [read(root, f"{taxes}/{term}") for term in ("CategoryCode", "BasisAmount", "CalculatedAmount")]
    assert [(category, cents(on), cents(tax)) for category, on, tax in zip(*groups, strict=True)] == [
        (group["category"], group["taxable"], group["tax"]) for group in invoice.breakdown
    ]
    assert read(root, f"{taxes}/ExemptionReason") == ["Exempt by law"]


def test_a_credit_note_names_the_invoice_that_it_takes_back_and_keeps_the_rules():
    invoice = an_invoice()
    line = invoice.lines.all()[2]
    credit_notes.issue(
        invoice_id=invoice.pk, reason="Scans not wanted", line_ids=[line.pk], now=NOW + timedelta(days=1)
    )

    xml = einvoice(Invoice.objects.get(kind="381"))

    root = etree.fromstring(xml)
    assert (checks.broken_schema(xml), checks.broken_rules(xml)) == ([], [])
    assert read(root, "ExchangedDocument/ID") == ["CRN-2026-0001"]
    assert read(root, "InvoiceReferencedDocument/IssuerAssignedID") == ["INV-2026-0001"]
    assert read(root, "FormattedIssueDateTime/DateTimeString") == ["20261120"]
    assert read(root, "IncludedNote/Content") == ["Scans not wanted"]
    assert read(root, "DuePayableAmount") == ["59.97"]
    assert read(root, "IBANID") == []


def test_a_sitter_without_an_address_was_a_guest_and_a_studio_without_a_tax_number_has_no_electronic_form():
    day = broad_day()
    first = invoices.issue(order_id=builders.a_paid_order(day).pk, now=NOW)
    assert read(etree.fromstring(einvoice(first)), "CountryID") == ["PT", "PT"]
    builders.a_studio(tax_number="")
    second = invoices.issue(order_id=builders.a_paid_order(day).pk, now=NOW)

    with pytest.raises(EInvoiceRefused, match=r"^INV-2026-0002 has no electronic form\. It was"):
        einvoice(second)
