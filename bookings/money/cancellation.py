"""What the studio keeps of a deposit when a sitter cancels, and what a late change of time costs."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

from bookings.money.amounts import WHOLE_BP, Money, MoneyValueError, require_whole, share_of, split
from bookings.money.lines import PricedLine


@dataclass(frozen=True, slots=True)
class CancellationRule:
    """Cancelling is free up to `free_hours` before the start; later `kept_bp` of the deposit stays.

    Raises MoneyValueError.
    """

    free_hours: int
    kept_bp: int

    def __post_init__(self) -> None:
        require_whole("The free hours", self.free_hours, least=0)
        require_whole("The kept share in basis points", self.kept_bp, least=0, most=WHOLE_BP)


@dataclass(frozen=True, slots=True)
class MovingRule:
    """A change of time is free up to `free_hours` before the start; later it costs `price_bp` of the deposit.

    Raises MoneyValueError.
    """

    free_hours: int
    price_bp: int

    def __post_init__(self) -> None:
        require_whole("The free hours", self.free_hours, least=0)
        require_whole("The price in basis points", self.price_bp, least=0, most=WHOLE_BP)


def retained_on_cancel(
    rule: CancellationRule, deposit_paid: Money, starts_at: datetime, now: datetime
) -> Money:
    """Return how much of `deposit_paid` (minor units) is kept when the sitting is cancelled at `now`.

    The last free moment itself is still free. Raises MoneyValueError for a naive datetime or a
    deposit below 0.
    """
    require_whole("The deposit paid", deposit_paid, least=0)
    return share_of(deposit_paid, rule.kept_bp) if _too_late(rule.free_hours, starts_at, now) else 0


def price_of_move(rule: MovingRule, deposit: Money, starts_at: datetime, now: datetime) -> Money:
    """Return what it costs (minor units) to give up `starts_at` for another time at `now`.

    `deposit` is the one that was agreed, whether it was paid or not. The last free moment itself is
    still free. Raises MoneyValueError for a naive datetime or a deposit below 0.
    """
    require_whole("The deposit", deposit, least=0)
    return share_of(deposit, rule.price_bp) if _too_late(rule.free_hours, starts_at, now) else 0


def free_until(free_hours: int, starts_at: datetime) -> datetime:
    """The last moment, in UTC, at which giving up `starts_at` is free. Raises MoneyValueError for a naive datetime."""
    if starts_at.utcoffset() is None:
        raise MoneyValueError("Start and change need datetimes with a time zone.")
    # In UTC, because subtracting from a local time counts hours of the clock on the wall, which
    # are an hour out across the nights the clock is changed.
    return starts_at.astimezone(UTC) - timedelta(hours=free_hours)


def _too_late(free_hours: int, starts_at: datetime, now: datetime) -> bool:
    if now.utcoffset() is None:
        raise MoneyValueError("Start and change need datetimes with a time zone.")
    return now > free_until(free_hours, starts_at)


def retained_lines(lines: Sequence[PricedLine], kept: Money, text: str) -> tuple[PricedLine, ...]:
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
