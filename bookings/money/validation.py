"""A second opinion on the totals of an invoice, told by the rules of EN 16931.

Nothing here calls the rounding or the sums that made the totals, so that a fault there shows here.
The rule numbers and their wording were read in public copies of the standard's validation rules.
Stricter than those: they let the tax of a group lie a whole unit of the currency off, here it has to be exact.
"""

from collections.abc import Iterator

from bookings.money.invoices import InvoiceTotals


def broken_rules(totals: InvoiceTotals, *, tax_within: int = 0) -> tuple[str, ...]:
    """Return one sentence for each rule that `totals` breaks, its number first; empty = sound.

    `tax_within` are the minor units by which the tax of a group may lie off: 1 for a credit note, whose tax is what
    is still missing of a tax that was rounded as a whole.
    """
    return (
        *_broken_sums(totals),
        *_broken_groups(totals),
        *_broken_taxes(totals, tax_within),
        *_broken_nets(totals),
    )


def _broken_sums(totals: InvoiceTotals) -> Iterator[str]:
    nets = sum(line.net for line in totals.lines)
    taxes = sum(group.tax for group in totals.tax_groups)
    prices = sum(line.priced.quantity * line.priced.unit_gross for line in totals.lines)
    with_tax = totals.total_without_tax + totals.total_tax
    due = totals.total_with_tax - totals.prepaid + totals.rounding
    for rule, name, stated, expected in (
        ("BR-CO-10", "sum of line net amounts (BT-106)", totals.line_net_sum, nets),
        ("BR-CO-13", "total without tax (BT-109)", totals.total_without_tax, totals.line_net_sum),
        ("BR-CO-14", "total tax (BT-110)", totals.total_tax, taxes),
        ("BR-CO-15", "total with tax (BT-112)", totals.total_with_tax, with_tax),
        ("BR-CO-16", "amount due (BT-115)", totals.due, due),
        ("charged", "sum of the prices shown", totals.charged, prices),
        ("charged", "amount due (BT-115)", totals.due, totals.charged - totals.prepaid),
    ):
        if stated != expected:
            yield f"{rule}: the {name} is {stated} but should be {expected}."


def _broken_groups(totals: InvoiceTotals) -> Iterator[str]:
    """BR-CO-18, and BR-S-08, BR-Z-08, BR-E-08: the lines of a kind add up to its one group."""
    if not totals.tax_groups:
        yield "BR-CO-18: there is no tax group (BG-23) but there should be at least one."
    expected: dict[tuple[str, int], int] = {}
    for line in totals.lines:
        kind = (line.priced.tax_category, line.priced.rate_bp)
        expected[kind] = expected.get(kind, 0) + line.net
    stated: dict[tuple[str, int], list[int]] = {}
    for group in totals.tax_groups:
        stated.setdefault((group.tax_category, group.rate_bp), []).append(group.taxable)
    for kind in sorted(expected | stated):
        wanted = [expected[kind]] if kind in expected else []
        if stated.get(kind, []) != wanted:
            yield (
                f"BR-{kind[0]}-08: the taxable amounts (BT-116) at {kind[1]} basis points are "
                f"{stated.get(kind, [])} but should be {wanted}."
            )


def _broken_taxes(totals: InvoiceTotals, within: int) -> Iterator[str]:
    for group in totals.tax_groups:
        near = range(group.tax - within, group.tax + within + 1)
        if not any(_is_rounded_half_up(tax, group.taxable * group.rate_bp, 10_000) for tax in near):
            yield (
                f"BR-CO-17: the tax (BT-117) is {group.tax} but should be "
                f"{group.rate_bp} basis points of {group.taxable}, rounded half up."
            )


def _broken_nets(totals: InvoiceTotals) -> Iterator[str]:
    for line in totals.lines:
        price, divisor = line.priced.quantity * line.priced.unit_gross, 10_000 + line.priced.rate_bp
        if not _is_rounded_half_up(line.net, price * 10_000, divisor):
            yield (
                f"net: the line net amount (BT-131) is {line.net} but should be {price} "
                f"less {line.priced.rate_bp} basis points of tax, rounded half up."
            )


def _is_rounded_half_up(value: int, numerator: int, denominator: int) -> bool:
    """Whether `value` is within half a unit of the fraction, an exact half lying away from zero."""
    if value * numerator < 0:
        return False
    doubled_error = 2 * (abs(numerator) - abs(value) * denominator)
    return -denominator <= doubled_error < denominator
