"""PURE: the countries by their two-letter codes (ISO 3166-1), with the names that the CLDR (Babel) has for them."""

from functools import cache

from babel import Locale

# The CLDR also names groups, places that have codes of their own only elsewhere, and codes kept for testing.
NO_COUNTRIES = frozenset({"AC", "CP", "CQ", "DG", "EA", "EU", "EZ", "IC", "QO", "TA", "UN", "XA", "XB", "ZZ"})


@cache
def countries(language: str = "en") -> dict[str, str]:
    """PURE: the countries by their codes, named in that language and in the order of the names."""
    named = Locale(language).territories
    return {
        code: str(name)
        for code, name in sorted(named.items(), key=lambda each: str(each[1]))
        if len(code) == 2 and code.isalpha() and code not in NO_COUNTRIES
    }


COUNTRIES = frozenset(countries())


def country_name(code: str, language: str = "en") -> str:
    """The name of a country in that language, or the code itself where it is none."""
    return countries(language).get(code.upper(), code)
