"""How money and time are written for people, by the studio's locale (Babel)."""

from datetime import date, datetime
from decimal import Decimal

from babel.dates import format_date
from babel.numbers import format_currency, get_currency_precision


def amount(minor: int, currency: str, locale: str = "en_GB") -> str:
    """Write an amount given in minor units, for example 12450 EUR as €124.50."""
    places = get_currency_precision(currency)
    return str(format_currency(Decimal(minor).scaleb(-places), currency, locale=locale))


def long_date(day: date, locale: str = "en_GB") -> str:
    """Write a date in words, for example Saturday 28 November 2026."""
    return str(format_date(day, "EEEE d MMMM y", locale=locale))


def percent(bp: int) -> str:
    """Write basis points as per cent, for example 2300 as 23 %."""
    whole, rest = divmod(bp, 100)
    return f"{whole}.{rest:02d}".rstrip("0").rstrip(".") + " %"


def clock(instant: datetime) -> str:
    """Write the time of day of an instant that is already on its venue's clock."""
    return f"{instant:%H:%M}"
