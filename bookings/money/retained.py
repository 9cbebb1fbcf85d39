"""What is invoiced of an order that was cancelled: the sum that is kept, with the tax of what was ordered."""

from collections.abc import Sequence

from bookings.money.amounts import Money, require_whole, split
from bookings.money.lines import PricedLine


def kept_lines(lines: Sequence[PricedLine], kept: Money, text: str) -> tuple[PricedLine, ...]:
    """Return one line a category and rate of tax among `lines`; their prices add up to `kept` exactly.

    Each gets its share of what was ordered at its rate, by largest remainder; a rate at which more was taken off than
    ordered gets none. Raises MoneyValueError when `kept` is not above 0 or nothing that was ordered costs anything.
    """
    require_whole("What is kept", kept, least=1)
    ordered: dict[tuple[str, int], Money] = {}
    for line in lines:
        kind = (line.tax_category, line.rate_bp)
        ordered[kind] = ordered.get(kind, 0) + line.gross
    parts = split(kept, [max(0, amount) for amount in ordered.values()])
    return tuple(
        PricedLine(text, 1, part, *kind) for kind, part in zip(ordered, parts, strict=True) if part > 0
    )
