"""PURE: the two-letter codes of countries (ISO 3166-1), with the names that the CLDR (Babel) has for them."""

from functools import cache

from babel import Locale

# The CLDR also names groups, places that have codes of their own only elsewhere, and codes kept for testing.
NO_COUNTRIES = frozenset({"AC", "CP", "CQ", "DG", "EA", "EU", "EZ", "IC", "QO", "TA", "UN", "XA", "XB", "ZZ"})


@cache
def named(language: str) -> dict[str, str]:
    """Every country by its code, in the order of the names."""
    named = Locale(language).territories
    return {
        code: str(name)
        for code, name in sorted(named.items(), key=lambda each: str(each[1]))
        if len(code) == 2 and code.isalpha() and code not in NO_COUNTRIES
    }


COUNTRIES = frozenset(named("en"))
