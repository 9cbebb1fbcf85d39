"""The arithmetic rules of EN 16931, by number: BR-CO-10, -13, -14, -15, -16, -17, -18 and BR-S-08,
BR-Z-08, BR-E-08. Their wording was read second-hand, in public copies of the validation rules
(release 1.3.16; the abstract Schematron model), not in the standard. 10,000 is the project's own bar."""

from dataclasses import replace
from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bookings.money import InvoicedLine, PricedLine, TaxGroup, broken_rules, invoice_totals
from tests.bookings.money.invoice_strategies import mixed_lines

# 123.00 standard and 45.00 exempt: 100.00 + 45.00 net, 23.00 tax, 168.00 in all, 50.00 paid.
SOUND = invoice_totals(
    [PricedLine("Half plate", 1, 12_300, "S", 2300), PricedLine("Gift", 1, 4_500, "E", 0)], "EUR", 5_000
)
EXEMPT, STANDARD = SOUND.tax_groups
# BT-117 that must be -15643588.5 rounded: the published example BIS3_Invoice_negativ.
TIE = invoice_totals([PricedLine("Half plate", -1, 78_217_943, "S", 2500)], "EUR", 0)


def rules_of(sentences):
    return {sentence.split(":")[0] for sentence in sentences}


def tampered_line(place, net):
    lines = list(SOUND.lines)
    lines[place] = InvoicedLine(lines[place].priced, net)
    return {"lines": tuple(lines)}


def test_the_sound_invoice_is_the_one_worked_out_by_hand():
    assert (SOUND.total_without_tax, SOUND.total_tax, SOUND.total_with_tax) == (14_500, 2_300, 16_800)
    assert broken_rules(SOUND) == ()


@pytest.mark.parametrize(
    ("change", "rules"),
    [
        ({"line_net_sum": 14_501}, {"BR-CO-10", "BR-CO-13"}),
        ({"total_without_tax": 14_501}, {"BR-CO-13", "BR-CO-15"}),
        ({"total_tax": 2_299}, {"BR-CO-14", "BR-CO-15"}),
        ({"total_with_tax": 16_801}, {"BR-CO-15", "BR-CO-16"}),
        ({"prepaid": 5_001}, {"BR-CO-16", "charged"}),
        ({"rounding": 1}, {"BR-CO-16"}),
        ({"due": 11_801}, {"BR-CO-16", "charged"}),
        ({"charged": 16_801}, {"charged"}),
        ({"charged": 16_799, "rounding": -1, "due": 11_799}, {"charged"}),
        ({"tax_groups": ()}, {"BR-CO-14", "BR-CO-18", "BR-S-08", "BR-E-08"}),
        ({"tax_groups": (STANDARD,)}, {"BR-E-08"}),
        ({"tax_groups": (EXEMPT, STANDARD, EXEMPT)}, {"BR-E-08"}),
        ({"tax_groups": (TaxGroup("Z", 0, 4_500, 0), STANDARD)}, {"BR-E-08", "BR-Z-08"}),
        ({"tax_groups": (EXEMPT, replace(STANDARD, taxable=10_001))}, {"BR-S-08"}),
        ({"tax_groups": (replace(EXEMPT, tax=1), replace(STANDARD, tax=2_299))}, {"BR-CO-17"}),
        (tampered_line(0, 10_001), {"BR-CO-10", "BR-S-08", "net"}),
        (tampered_line(1, 4_499), {"BR-CO-10", "BR-E-08", "net"}),
    ],
)
def test_each_broken_rule_is_named(change, rules):
    assert rules_of(broken_rules(replace(SOUND, **change))) == rules


def test_a_broken_rule_says_what_is_and_what_should_be():
    assert broken_rules(replace(SOUND, due=11_801)) == (
        "BR-CO-16: the amount due (BT-115) is 11801 but should be 11800.",
        "charged: the amount due (BT-115) is 11801 but should be 11800.",
    )
    assert broken_rules(replace(SOUND, tax_groups=(STANDARD,))) == (
        "BR-E-08: the taxable amounts (BT-116) at 0 basis points are [] but should be [4500].",
    )


@pytest.mark.parametrize("tax", [-15_643_588, -15_643_590, 15_643_589])
def test_a_tax_one_cent_off_its_rounding_or_of_the_wrong_sign_is_found(tax):
    assert TIE.tax_groups[0].tax == -15_643_589
    forged = replace(TIE, tax_groups=(replace(TIE.tax_groups[0], tax=tax),))

    assert "BR-CO-17" in rules_of(broken_rules(forged))


# Ten thousand orders from quote to invoice: `python -m tests.benchmarks.orders 10000`.
# Ten thousand orders from quote to invoice: `python -m tests.benchmarks.orders 10000`.
@settings(max_examples=500)
@given(mixed_lines, st.integers(-1_000_000, 1_000_000))
def test_invoices_are_sound_and_decimal_finds_the_same_nets_and_taxes(lines, prepaid):
    totals = invoice_totals(lines, "EUR", prepaid)

    assert broken_rules(totals) == ()
    assert totals.due == sum(line.quantity * line.unit_gross for line in lines) - prepaid
    for line in totals.lines:
        assert line.net == rounded(Decimal(line.priced.gross) / (1 + Decimal(line.priced.rate_bp) / 10_000))
    for group in totals.tax_groups:
        assert group.tax == rounded(Decimal(group.taxable) * group.rate_bp / 10_000)
    # Own derivation: a net is off by half a cent at most, with its tax by half of 1 + rate; each
    # group's tax adds half a cent. Doubled and in basis points, so that whole numbers do.
    most = sum(10_000 + line.rate_bp for line in lines) + 10_000 * len(totals.tax_groups)
    assert 2 * 10_000 * abs(totals.rounding) <= most


def rounded(amount):
    return int(amount.quantize(Decimal(1), rounding=ROUND_HALF_UP))
