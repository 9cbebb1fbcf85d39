"""A studio in Germany, and how English is found where it should be gone."""

import re

from bookings.diary.models import Venue
from bookings.pricing.models import Terms
from tests import builders

# Frequent English words that no German sentence has. Not among them: was, war, in, am, so, an, die, will, hat, not;
# and "at", which pdftotext finds in a letter-spaced PLATE.
WORDS = (
    "the and your you of with for this that these is are be been has have had to by from it its or which who what "
    "when where as than then there here their they we our cannot can may nothing nobody only one more until since "
    "another after before while because"
)
ENGLISH = frozenset(WORDS.split())
# Names that stay: an island as the CLDR has it in German, too; an article and where it was read.
NAMES = re.compile(r"Isle of Man|The Wet Collodion Process, IS&T 50th Annual Conference")
HOW_TO_PAY = "Bringen Sie die Anzahlung in die Möwengasse, oder überweisen Sie sie."
TERMS = "Eine Platte wird ohne Berechnung neu gemacht, wenn der Fehler beim Studio liegt."


def a_german_studio(**changes):
    """The studio with a German locale, and with its own texts in German: those nobody translates."""
    builders.some_terms()
    Terms.objects.update(text=TERMS)
    Venue.objects.update(finding_it="Die grüne Tür neben dem Netzboden. Zweimal läuten.")
    return builders.a_studio(locale="de_DE", country="DE", how_to_pay=HOW_TO_PAY, **changes)


def english_in(text):
    """The English words of a text, apart from addresses."""
    without = re.sub(r"\S+(?:@|://)\S+", " ", NAMES.sub(" ", text))
    return sorted(ENGLISH & set(re.findall(r"(?<!\w)[a-zäöüß]+(?!\w)", without.lower())))
