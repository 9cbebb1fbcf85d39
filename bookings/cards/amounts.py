"""PURE: sums as the card service writes them, which is not for every currency in the smallest unit.

Ours are in the smallest unit that people write (Babel, CLDR); the service's in one that its own page lists ("Supported
currencies", minor units and special cases; read 2026-11-26). So 500 ISK are 500 here and 50000 there.
"""

from babel.numbers import get_currency_precision

from bookings.money import Money

WITHOUT_PLACES = frozenset(
    ["BIF", "CLP", "DJF", "GNF", "JPY", "KMF", "KRW", "MGA", "PYG", "RWF", "VND", "VUV", "XAF", "XOF", "XPF"]
)
THREE_PLACES = frozenset(["BHD", "JOD", "KWD", "OMR", "TND"])  # the last of which must be 0
# Listed both without places and, under the special cases, with two. A mistake would be a hundredfold sum.
UNCLEAR = frozenset({"UGX"})


class NoSuchSum(ValueError):
    """A sum that one side can write and the other cannot."""


def to_service(amount: Money, currency: str) -> int:
    """Return `amount` in the service's unit; NoSuchSum where it has none for it."""
    _refuse_unclear(currency)
    sum_there = _moved(amount, _places(currency) - get_currency_precision(currency))
    if currency in THREE_PLACES and sum_there % 10:
        raise NoSuchSum(f"The last of the three places of {currency} must be 0, got {amount}.")
    return sum_there


def from_service(sum_there: int, currency: str) -> Money:
    """Return the service's sum in our smallest unit; NoSuchSum where it is no whole number of them."""
    _refuse_unclear(currency)
    return _moved(sum_there, get_currency_precision(currency) - _places(currency))


def _places(currency: str) -> int:
    if currency in WITHOUT_PLACES:
        return 0
    return 3 if currency in THREE_PLACES else 2


def _moved(amount: int, places: int) -> int:
    """`amount` with its point moved to the right, or with a minus sign to the left, where nothing may be lost."""
    factor: int = 10 ** abs(places)
    if places >= 0:
        return amount * factor
    whole, rest = divmod(amount, factor)
    if rest:
        raise NoSuchSum(f"{amount} cannot be written with {-places} places less.")
    return whole


def _refuse_unclear(currency: str) -> None:
    if currency in UNCLEAR:
        raise NoSuchSum(f"It is not clear in which unit the card service counts {currency}.")
