"""The language that is spoken, and how words stand in its sentences."""

from django.utils.functional import Promise
from django.utils.translation import get_language, gettext, to_locale

from plates.chemistry.sentences import Sentence
from plates.chemistry.values import ChemistryValueError

# The languages that write their nouns with a capital wherever they stand.
WITH_CAPITALS = frozenset({"de"})


def within(word: str | Promise) -> str:
    """A word of a list as it stands within a sentence: washing in "Plate 3 is washing"; in German it stays as it is."""
    return str(word) if language() in WITH_CAPITALS else str(word).lower()


def translated(told: str | ChemistryValueError) -> str:
    """What chemistry tells, or why it refuses, in the language that is spoken; other words stay as they are."""
    words = told.args[0] if isinstance(told, ChemistryValueError) else told
    if not isinstance(words, Sentence):
        return str(words)
    facts = {name: translated(fact) for name, fact in words.facts.items()}
    return gettext(words.pattern).format(**facts) if facts else gettext(words.pattern)


def language() -> str:
    """The language that is spoken, without a territory: en, de."""
    return (get_language() or "").partition("-")[0]


def language_tag() -> str:
    """The language that is spoken as mark-up names it (BCP 47): en-GB, de."""
    return to_locale(get_language() or "").replace("_", "-")
