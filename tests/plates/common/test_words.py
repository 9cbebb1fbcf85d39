import pytest
from django.utils import translation

from plates.chemistry.sentences import Sentence
from plates.chemistry.values import ChemistryValueError
from plates.common.words import translated

DUE = Sentence(
    "{deed}: {made} plates since it was done, {most} is the limit.",
    deed=Sentence("Filter it"),
    made="25",
    most="20",
)
IN_GERMAN = "Filtrieren: 25 Platten seit dem letzten Mal, die Grenze ist 20."


@pytest.mark.parametrize("told", [DUE, ChemistryValueError(DUE)], ids=["told", "refused"])
def test_what_chemistry_says_is_said_in_the_language_that_is_spoken(told):
    with translation.override("de"):
        assert translated(told) == IN_GERMAN
    with translation.override("en-gb"):
        assert translated(told) == "Filter it: 25 plates since it was done, 20 is the limit."


def test_words_that_are_no_sentence_of_ours_stay_as_they_are():
    with translation.override("de"):
        assert translated("Filter it") == "Filter it"
