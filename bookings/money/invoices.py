"""The totals of an invoice or credit note as EN 16931 names them, from tax-included prices.

Each line is rounded to its net first and the nets are then summed exactly; the tax of a group is
rounded once. So the total with tax can be some minor units off the prices shown. That difference
is the rounding amount (BT-114), and what is due is always prices shown minus what was paid.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from bookings.money.amounts import Money, MoneyValueError, require_currency, require_whole
from bookings.money.lines import PricedLine, TaxGroup, tax_groups


@dataclass(frozen=True, slots=True)
class InvoicedLine:
    """A priced line and the net amount it is invoiced with (BG-25)."""

    priced: PricedLine
    net: Money  # BT-131

    def __post_init__(self) -> None:
        require_whole("The line net amount", self.net)


@dataclass(frozen=True, slots=True)
class InvoiceTotals:
    """All amounts of one invoice in minor units of `currency`; `broken_rules` says if they agree.

    Raises MoneyValueError for an amount that is not whole, a bad currency or no line (BR-16).
    """

    lines: tuple[InvoicedLine, ...]  # BG-25
    currency: str  # BT-5
    charged: Money  # the tax-included prices shown, summed; no term of EN 16931
    line_net_sum: Money  # BT-106
    tax_groups: tuple[TaxGroup, ...]  # BG-23
    total_without_tax: Money  # BT-109
    total_tax: Money  # BT-110
    total_with_tax: Money  # BT-112
    prepaid: Money  # BT-113
    rounding: Money  # BT-114
    due: Money  # BT-115

    def __post_init__(self) -> None:
        require_currency(self.currency)
        if not self.lines:
            raise MoneyValueError("An invoice needs at least one line.")
        for name in _AMOUNTS:
            require_whole(name, getattr(self, name))


_AMOUNTS = (
    "charged",
    "line_net_sum",
    "total_without_tax",
    "total_tax",
    "total_with_tax",
    "prepaid",
    "rounding",
    "due",
)


def invoice_totals(lines: Sequence[PricedLine], currency: str, prepaid: Money) -> InvoiceTotals:
    """Return the totals of `lines` when `prepaid` was paid already (below 0: paid back already).

    Lines with negative quantities make a credit note whose amounts mirror the invoice exactly.
    Raises MoneyValueError for no line, a bad currency or a paid amount that is not whole.
    """
    require_whole("prepaid", prepaid)
    invoiced = tuple(InvoicedLine(line, line.net) for line in lines)
    charged = sum(line.gross for line in lines)
    net_sum = sum(line.net for line in invoiced)
    groups = tax_groups(lines)
    total_tax = sum(group.tax for group in groups)
    return InvoiceTotals(
        lines=invoiced,
        currency=currency,
        charged=charged,
        line_net_sum=net_sum,
        tax_groups=groups,
        total_without_tax=net_sum,
        total_tax=total_tax,
        total_with_tax=net_sum + total_tax,
        prepaid=prepaid,
        rounding=charged - net_sum - total_tax,
        due=charged - prepaid,
    )


def missing(numbers: Iterable[int], last: int) -> tuple[tuple[int, int], ...]:
    """Return the numbers from 1 to `last` that are not among `numbers`, each run as its first and its last one."""
    runs: list[tuple[int, int]] = []
    expected = 1
    for number in [*sorted({number for number in numbers if 1 <= number <= last}), last + 1]:
        if number > expected:
            runs.append((expected, number - 1))
        expected = number + 1
    return tuple(runs)
