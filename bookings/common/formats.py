"""How money and time are written for people, by the studio's locale (Babel)."""

from datetime import date, datetime, timedelta
from decimal import Decimal

from babel.dates import format_date
from babel.numbers import format_currency, get_currency_precision
from django.utils.formats import get_format
from django.utils.translation import gettext as _


def amount(minor: int, currency: str, locale: str = "en_GB") -> str:
    """Write an amount given in minor units, for example 12450 EUR as €124.50."""
    places = get_currency_precision(currency)
    return str(format_currency(Decimal(minor).scaleb(-places), currency, locale=locale))


def in_groups(code: str) -> str:
    """Write the code of a voucher so that it can be read aloud and typed back, for example ABCD-EFGH-JKMN."""
    return "-".join(code[at : at + 4] for at in range(0, len(code), 4))


def voucher_reference(code: str) -> str:
    """What is given with the money for a voucher: it names the voucher, and leaves two thirds of the code unsaid."""
    return f"V-{code[:4]}"


def major(minor: int, currency: str) -> Decimal:
    """An amount given in minor units as a number in the currency's own, for example 12450 EUR as 124.50."""
    return Decimal(minor).scaleb(-get_currency_precision(currency))


def long_date(day: date, locale: str = "en_GB") -> str:
    """Write a date in words, for example Saturday 28 November 2026, or Samstag, 28. November 2026."""
    return str(format_date(day, "EEEE d MMMM y" if _english(locale) else "full", locale=locale))


def short_date(day: date, locale: str = "en_GB") -> str:
    """Write a date where there is little room, for example 28 Nov 2026."""
    return str(format_date(day, "d MMM y" if _english(locale) else "medium", locale=locale))


def _english(locale: str) -> bool:
    """Whether dates are written as the English words around them want it, in every English-speaking country alike."""
    return locale.startswith("en")


def percent(bp: int) -> str:
    """Write basis points as per cent, for example 2300 as 23 %."""
    whole, rest = divmod(bp, 100)
    if not rest:
        return f"{whole} %"
    return f"{whole}{get_format('DECIMAL_SEPARATOR')}{f'{rest:02d}'.rstrip('0')} %"


def clock(instant: datetime) -> str:
    """Write the time of day of an instant that is already on its venue's clock, for example 10:00.

    A time which that clock shows twice, in the night it goes back, is told apart by its offset: 01:30 (UTC+1).
    """
    if instant.replace(fold=1 - instant.fold).utcoffset() == instant.utcoffset():
        return f"{instant:%H:%M}"
    return f"{instant:%H:%M} ({offset(instant)})"


def offset(instant: datetime) -> str:
    """Write how far the clock of an aware instant is from UTC, for example UTC+0, UTC-5 or UTC+10:30."""
    minutes = (instant.utcoffset() or timedelta()) // timedelta(minutes=1)
    hours, rest = divmod(abs(minutes), 60)
    return f"UTC{'-' if minutes < 0 else '+'}{hours}" + (f":{rest:02d}" if rest else "")


def moment(instant: datetime, locale: str = "en_GB") -> str:
    """Write date, time and clock in full, for example
    Saturday 28 November 2026 at 10:00 (Europe/Lisbon, UTC+0).
    """
    return _("{date} at {time} ({zone}, {offset})").format(
        date=long_date(instant.date(), locale),
        time=f"{instant:%H:%M}",
        zone=instant.tzinfo,
        offset=offset(instant),
    )
