"""Held against the example invoices published with the EN 16931 validation rules (repository
ConnectingEurope/eInvoicing-EN16931, folder ubl/examples): their taxable amounts, rates, taxes and
totals are the expected values here. They price without tax, so each test makes one tax-included
line a tax group, priced taxable + tax as published, and must come back to the published numbers."""

from dataclasses import fields, replace

import pytest
from hypothesis import given

from bookings.money import InvoicedLine, MoneyValueError, PricedLine, TaxGroup, broken_rules, invoice_totals
from tests.bookings.money.invoice_strategies import mixed_lines

HALF_PLATE = PricedLine("Half plate", 1, 12_300, "S", 2300)

# name: lines (quantity, unit price with tax, category, rate), prepaid,
#       then BG-23 (category, rate, BT-116, BT-117), BT-106, BT-110, BT-112, BT-115.
PUBLISHED = {
    "ubl-tc434-example1: two rates": (
        [(1, 19_422, "S", 600), (1, 5_611, "S", 2100)],
        0,
        [("S", 600, 18_323, 1_099), ("S", 2100, 4_637, 974)],
        (22_960, 2_073, 25_033, 25_033),
    ),
    "ubl-tc434-example2: a tie, an exempt return, 1000.00 prepaid": (
        [(1, 182_563, "S", 2500), (1, 115, "S", 1500), (-1, 2_500, "E", 0)],
        100_000,
        [("E", 0, -2_500, 0), ("S", 1500, 100, 15), ("S", 2500, 146_050, 36_513)],
        (143_650, 36_528, 180_178, 80_178),
    ),
    "ubl-tc434-example9: one rate": (
        [(1, 17_787, "S", 2100)],
        0,
        [("S", 2100, 14_700, 3_087)],
        (14_700, 3_087, 17_787, 17_787),
    ),
    "ubl-tc434-creditnote1: exempt": (
        [(1, 10_011, "E", 0)],
        0,
        [("E", 0, 10_011, 0)],
        (10_011, 0, 10_011, 10_011),
    ),
    "BIS3_Invoice_negativ: a negative quantity whose tax is a tie": (
        [(-1, 78_217_943, "S", 2500)],
        0,
        [("S", 2500, -62_574_354, -15_643_589)],
        (-62_574_354, -15_643_589, -78_217_943, -78_217_943),
    ),
}


@pytest.mark.parametrize(("lines", "prepaid", "groups", "sums"), PUBLISHED.values(), ids=PUBLISHED.keys())
def test_totals_are_those_of_the_published_examples(lines, prepaid, groups, sums):
    totals = invoice_totals([PricedLine("goods", *values) for values in lines], "EUR", prepaid)

    assert totals.tax_groups == tuple(TaxGroup(*values) for values in groups)
    assert (totals.line_net_sum, totals.total_tax, totals.total_with_tax, totals.due) == sums
    assert (totals.total_without_tax, totals.prepaid, totals.rounding) == (sums[0], prepaid, 0)
    assert broken_rules(totals) == ()


@pytest.mark.parametrize(
    ("unit_gross", "copies", "total_with_tax", "rounding"),
    # By hand at 23 %. 0.05 seven times: 7 x 4 = 28 and 6 tax are 34, prices 35.
    # 0.10 three times: 3 x 8 = 24 and 5.52 -> 6 are 30. 0.07 twice: 2 x 6 = 12 and 2.76 -> 3 are 15.
    [(5, 7, 34, 1), (10, 3, 30, 0), (7, 2, 15, -1)],
)
def test_the_rounding_amount_brings_the_total_back_to_the_prices_shown(
    unit_gross, copies, total_with_tax, rounding
):
    totals = invoice_totals([replace(HALF_PLATE, unit_gross=unit_gross)] * copies, "EUR", 0)

    assert (totals.total_with_tax, totals.rounding, totals.due) == (
        total_with_tax,
        rounding,
        unit_gross * copies,
    )


def test_an_invoice_keeps_its_lines_in_order_and_overpaid_is_due_below_nothing():
    other = replace(HALF_PLATE, text="Whole plate", unit_gross=24_600)
    totals = invoice_totals([other, HALF_PLATE], "EUR", 37_000)

    assert totals.lines == (InvoicedLine(other, 20_000), InvoicedLine(HALF_PLATE, 10_000))
    assert (totals.currency, totals.charged, totals.prepaid, totals.due) == ("EUR", 36_900, 37_000, -100)
    assert broken_rules(totals) == ()


@given(mixed_lines)
def test_a_credit_note_mirrors_its_invoice_to_the_last_cent(lines):
    invoice = invoice_totals(lines, "EUR", 500)
    credit = invoice_totals([line.credited() for line in lines], "EUR", -500)

    for name in ("charged", "line_net_sum", "total_tax", "total_with_tax", "rounding", "due"):
        assert getattr(credit, name) == -getattr(invoice, name)
    assert [(g.taxable, g.tax) for g in credit.tax_groups] == [
        (-g.taxable, -g.tax) for g in invoice.tax_groups
    ]


def test_no_sum_can_be_anything_but_whole():
    totals = invoice_totals([HALF_PLATE], "EUR", 0)

    for field in fields(totals):
        if field.name not in ("lines", "tax_groups", "currency"):
            with pytest.raises(MoneyValueError, match=f"^{field.name} must be a whole number, got 1.0"):
                replace(totals, **{field.name: 1.0})
    with pytest.raises(MoneyValueError, match=r"^The line net amount must be a whole number, got 1\.5\.$"):
        InvoicedLine(HALF_PLATE, 1.5)
