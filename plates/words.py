"""How words stand in a sentence, in whatever language is spoken."""

from django.utils.functional import Promise
from django.utils.translation import get_language

# The languages that write their nouns with a capital wherever they stand.
WITH_CAPITALS = frozenset({"de"})


def within(word: str | Promise) -> str:
    """A word of a list as it stands within a sentence: washing in "Plate 3 is washing"; in German it stays as it is."""
    language = (get_language() or "").partition("-")[0]
    return str(word) if language in WITH_CAPITALS else str(word).lower()
