"""Documents for tests, worked out by the money rules from lines as a client is told them."""

from dataclasses import replace
from datetime import date

from bookings.invoices.einvoice import Document, Line, Party, TaxShare
from bookings.money import PricedLine, credit_totals, invoice_totals

SELLER = Party(
    "Gannet Lane Plate Rooms", ("4 Gannet Lane", "Saltmarrow"), "PT", "PT999999990", "rooms@example.org"
)
BUYER = Party("Ines Madrugada", (), "PT", "", "ines@example.org")
QUAY = ("Quay 3", "Second floor", "Room 9", "Saltmarrow")
COMPANY = Party("Nets & Lines Lda", QUAY, "PT", "PT111111110", "nets@example.org", "Ines")
PLATE = PricedLine("Quarter plate", 1, 8_500, "S", 2300)
SCAN = PricedLine("Scan", 3, 1_999, "S", 600)
POST = PricedLine("Post, insured", 1, 777, "E", 0)
PRINT = PricedLine("Print", 2, 1_250, "Z", 0)
DISCOUNT = PricedLine("Of the house", -1, 1_050, "S", 2300)
KEPT = PricedLine("Cancelled sitting: part of the deposit kept", 1, 4_250, "S", 2300)


def a_document(lines, *, prepaid=0, **changes):
    """An invoice of these lines."""
    return _document(invoice_totals(lines, "EUR", prepaid), {"due_on": date(2026, 12, 4)} | changes)


def a_credit_note(lines, before=(), **changes):
    """A credit note for these lines, when `before` was taken back by earlier ones."""
    facts = {
        "kind": "381",
        "number": "CRN-2026-0001",
        "corrects": ("INV-2026-0001", date(2026, 11, 20)),
        "reason": "Made out to the wrong name",
    }
    return _document(credit_totals(lines, before, "EUR"), facts | changes)


def _document(totals, changes):
    document = Document(
        kind="380", number="INV-2026-0001", issued_on=date(2026, 11, 20), supplied_on=date(2026, 11, 28), due_on=None,
        currency=totals.currency, places=2, order="AAAA2222", seller=SELLER, buyer=BUYER, account="",
        lines=tuple(
            Line(at, each.priced.text, each.priced.quantity, each.net, each.priced.tax_category, each.priced.rate_bp)
            for at, each in enumerate(totals.lines, start=1)
        ),
        taxes=tuple(
            TaxShare(each.tax_category, each.rate_bp, each.taxable, each.tax, "By law" * (each.tax_category == "E"))
            for each in totals.tax_groups
        ),
        net=totals.total_without_tax, tax=totals.total_tax, total=totals.total_with_tax,
        prepaid=totals.prepaid, rounding=totals.rounding, due=totals.due,
    )  # fmt: skip
    return replace(document, **changes)
