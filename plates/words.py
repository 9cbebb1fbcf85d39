"""The language that is spoken, and how words stand in its sentences."""

from django.utils.functional import Promise
from django.utils.translation import get_language, to_locale

# The languages that write their nouns with a capital wherever they stand.
WITH_CAPITALS = frozenset({"de"})


def within(word: str | Promise) -> str:
    """A word of a list as it stands within a sentence: washing in "Plate 3 is washing"; in German it stays as it is."""
    return str(word) if language() in WITH_CAPITALS else str(word).lower()


def language() -> str:
    """The language that is spoken, without a territory: en, de."""
    return (get_language() or "").partition("-")[0]


def language_tag() -> str:
    """The language that is spoken as mark-up names it (BCP 47): en-GB, de."""
    return to_locale(get_language() or "").replace("_", "-")
