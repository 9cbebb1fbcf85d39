"""The countries, named in the language that is spoken."""

from django.utils.translation import get_language

from bookings.common.country_codes import named


def countries() -> dict[str, str]:
    """The countries by their codes, named in the language that is spoken."""
    return named((get_language() or "en").partition("-")[0])


def country_name(code: str) -> str:
    """The name of a country, or the code itself where it is none."""
    return countries().get(code.upper(), code)
