"""Public holidays of a country, by the kept library `holidays`. They only fill a form in: the studio decides.

Regional holidays are not among them.
"""

from datetime import date

import holidays


def public_holidays(country: str, year: int, locale: str) -> dict[date, str]:
    """The public holidays of a country (two-letter code, ISO 3166-1) in a year; none where the library knows none.

    They are named in the language of `locale` where the library has it, else in the country's own.
    """
    code = country.upper()
    if code not in holidays.list_supported_countries(include_aliases=False):
        return {}
    language = _language(holidays.country_holidays(code).supported_languages, locale)
    return dict(sorted(holidays.country_holidays(code, years=year, language=language).items()))


def _language(known: tuple[str, ...], locale: str) -> str | None:
    """The same language and country, else the same language, else that of the country."""
    alike = sorted(known, key=lambda each: (each != locale, each))
    return next((each for each in alike if each[:2] == locale[:2]), None)
