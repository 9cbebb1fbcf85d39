"""What a credit note takes back of an invoice: whole lines, to the last minor unit."""

from collections.abc import Sequence
from dataclasses import replace

from bookings.money.invoices import InvoiceTotals, invoice_totals
from bookings.money.lines import PricedLine, TaxGroup, tax_groups


def credit_totals(lines: Sequence[PricedLine], before: Sequence[PricedLine], currency: str) -> InvoiceTotals:
    """Return the totals of a credit note for `lines`, when `before` was taken back by earlier ones.

    The tax of a group is the tax on all that has been taken back by now, less the tax that was taken back before. So
    it lies a minor unit at most off the tax on `lines` alone, and however an invoice is taken back in parts, its
    parts add up to it. Nothing is prepaid: what is due is what is credited. Raises MoneyValueError for no line.
    """
    totals = invoice_totals(lines, currency, 0)
    groups = tuple(_with_tax(group, lines, before) for group in totals.tax_groups)
    tax = sum(group.tax for group in groups)
    with_tax = totals.total_without_tax + tax
    return replace(
        totals,
        tax_groups=groups,
        total_tax=tax,
        total_with_tax=with_tax,
        rounding=totals.charged - with_tax,
    )


def _with_tax(group: TaxGroup, lines: Sequence[PricedLine], before: Sequence[PricedLine]) -> TaxGroup:
    return replace(group, tax=_tax(group, [*before, *lines]) - _tax(group, before))


def _tax(kind: TaxGroup, lines: Sequence[PricedLine]) -> int:
    """The tax on those of `lines` that are of one kind."""
    same = [line for line in lines if (line.tax_category, line.rate_bp) == (kind.tax_category, kind.rate_bp)]
    return sum(group.tax for group in tax_groups(same))
