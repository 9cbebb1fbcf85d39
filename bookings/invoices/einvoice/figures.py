"""Amounts, rates, dates and unit prices as an electronic invoice writes them."""

from datetime import date
from decimal import ROUND_HALF_UP, Decimal

from bookings.money import Money

MOST_PLACES = 10  # of a unit price: enough for any number of pieces that a line can have


def amount(minor: Money, places: int) -> str:
    """Write minor units with the decimals of their currency, for example 12450 as 124.50."""
    return f"{Decimal(minor).scaleb(-places):f}"


def percent(bp: int) -> str:
    """Write basis points as per cent, for example 2300 as 23.00."""
    return amount(bp, 2)


def day(on: date) -> str:
    """Write a date in format 102 of UNTDID 2379, for example 20261128."""
    return f"{on:%Y%m%d}"


def unit_price(net: Money, quantity: int, places: int) -> str:
    """Write the price of one piece without tax (BT-146), with so many decimals that the line comes out of it.

    Never below 0 (BR-27): net and quantity of a line have the same sign.
    """
    line = Decimal(net).scaleb(-places)
    for decimals in range(places, MOST_PLACES):
        price = _rounded(line / quantity, decimals)
        if _rounded(price * quantity, places) == line:
            return f"{price:f}"
    return f"{_rounded(line / quantity, MOST_PLACES):f}"


def _rounded(value: Decimal, places: int) -> Decimal:
    return abs(value).quantize(Decimal(1).scaleb(-places), ROUND_HALF_UP).copy_sign(value) + 0
