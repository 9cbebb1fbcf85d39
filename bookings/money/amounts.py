"""Whole amounts of money: exact rounding, fair splits, what is still owed.

Every amount is an int in the minor unit of its currency (cents for EUR), every rate an int in
basis points (2300 = 23 %). Ints of any size are exact in Python, so no result here depends on a
precision, a rounding context or the machine.
"""

import re
from collections.abc import Iterable, Sequence
from typing import TypeAlias

Money: TypeAlias = int

WHOLE_BP = 10_000  # 100 % in basis points

_CURRENCY = re.compile(r"[A-Z]{3}")


class MoneyValueError(ValueError):
    """A value that no amount, rate, line or rule of money can have; the text says which and why."""


def require_whole(name: str, value: object, *, least: int | None = None, most: int | None = None) -> None:
    """Raise MoneyValueError unless `value` is an int (a bool is none) within `least`..`most`."""
    if isinstance(value, bool) or not isinstance(value, int):
        raise MoneyValueError(f"{name} must be a whole number, got {value!r}.")
    if least is not None and value < least:
        raise MoneyValueError(f"{name} must be at least {least}, got {value}.")
    if most is not None and value > most:
        raise MoneyValueError(f"{name} must be at most {most}, got {value}.")


def require_currency(currency: object) -> None:
    """Raise MoneyValueError unless `currency` has the form of an ISO 4217 code: three capitals."""
    if not isinstance(currency, str) or not _CURRENCY.fullmatch(currency):
        raise MoneyValueError(f"The currency must be three capital letters such as EUR, got {currency!r}.")


def half_up(numerator: int, denominator: int) -> int:
    """Return numerator / denominator to the nearest int, halves away from zero.

    The sign is put back after rounding, so a credit is the exact mirror of what it credits.
    Raises MoneyValueError unless both are ints and the denominator is 1 or more.
    """
    require_whole("numerator", numerator)
    require_whole("denominator", denominator, least=1)
    rounded = (2 * abs(numerator) + denominator) // (2 * denominator)
    return -rounded if numerator < 0 else rounded


def share_of(amount: Money, share_bp: int) -> Money:
    """Return `share_bp` basis points of `amount`, rounded half up."""
    return half_up(amount * share_bp, WHOLE_BP)


def split(total: Money, weights: Sequence[int]) -> tuple[Money, ...]:
    """Share `total` by `weights` so that the parts add up to it exactly (largest remainder).

    Each part is rounded down, then the minor units left over go one each to the largest
    remainders; of equal remainders the earlier part is served first. A negative total is split
    by absolute value. Raises MoneyValueError for a negative weight or when no weight is above 0.
    """
    require_whole("total", total)
    for weight in weights:
        require_whole("weight", weight, least=0)
    whole = sum(weights)
    if whole == 0:
        raise MoneyValueError("A split needs at least one weight above 0.")
    parts, remainders = zip(*(divmod(abs(total) * weight, whole) for weight in weights), strict=True)
    left_over = abs(total) - sum(parts)
    by_remainder = sorted(range(len(parts)), key=lambda place: -remainders[place])
    served = set(by_remainder[:left_over])
    sign = -1 if total < 0 else 1
    return tuple(sign * (part + (place in served)) for place, part in enumerate(parts))


def balance(gross: Money, paid: Iterable[Money]) -> Money:
    """Return what is still owed of `gross`; refunds in `paid` are negative, overpaid is below 0."""
    require_whole("gross", gross)
    entries = tuple(paid)
    for entry in entries:
        require_whole("paid", entry)
    return gross - sum(entries)
