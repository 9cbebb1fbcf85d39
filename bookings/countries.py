"""The countries by their two-letter codes (ISO 3166-1), with their English names from the CLDR (Babel)."""

from babel import Locale

# The CLDR also names groups, places that have codes of their own only elsewhere, and codes kept for testing.
NO_COUNTRIES = frozenset({"AC", "CP", "CQ", "DG", "EA", "EU", "EZ", "IC", "QO", "TA", "UN", "XA", "XB", "ZZ"})

_named = Locale("en").territories
COUNTRIES: dict[str, str] = {
    code: str(name)
    for code, name in sorted(_named.items(), key=lambda each: str(each[1]))
    if len(code) == 2 and code.isalpha() and code not in NO_COUNTRIES
}


def country_name(code: str) -> str:
    """The name of a country, or the code itself where it is none."""
    return COUNTRIES.get(code.upper(), code)
