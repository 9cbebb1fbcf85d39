"""Limits by trade-facts s.3 and s.4: 90 g/L, warn below 80, stop below 70 (D); pH 3.5 to 5, counts of plates (E)."""

from fractions import Fraction

import pytest

from plates.chemistry.bath.care import BathLimits, by_acidity, by_plates, by_strength
from plates.chemistry.bath.strength import grams_per_litre
from plates.chemistry.values import ChemistryValueError


@pytest.mark.parametrize(
    ("litre", "level", "says"),
    [
        ("80", "good", "The bath holds 80.0 g/L."),
        ("79.9", "soon", "The bath holds 79.9 g/L: strengthen it after this sitting."),
        ("70", "soon", "The bath holds 70.0 g/L: strengthen it after this sitting."),
        ("69.9", "stop", "The bath holds 69.9 g/L: strengthen it before the next plate."),
    ],
)
def test_a_bath_is_judged_by_its_strength(litre, level, says):
    care = by_strength(grams_per_litre(Fraction(litre)))

    assert (care.level, care.sentence) == (level, says)


@pytest.mark.parametrize(
    ("ph", "level", "word"),
    [
        ("3.4", "soon", "too acid"),
        ("3.5", "good", "as it should be"),
        ("5", "good", ""),
        ("5.1", "soon", "hardly acid"),
    ],
)
def test_a_bath_is_judged_by_its_acidity(ph, level, word):
    care = by_acidity(Fraction(ph))

    assert care.level == level
    assert word in care.sentence


def test_an_acidity_that_there_is_not_is_refused():
    with pytest.raises(ChemistryValueError, match=r"The pH must be at most 14, got 15."):
        by_acidity(15)


def test_nothing_is_due_before_its_plates_are_made():
    assert by_plates(since_filtered=24, since_sunned=99, since_tested=14) == ()


def test_each_care_is_due_by_its_own_count():
    due = by_plates(since_filtered=25, since_sunned=100, since_tested=15)

    assert [care.sentence.split(":")[0] for care in due] == [
        "Test its strength", "Filter it", "Rest it in strong light, and work with the other bath",
    ]  # fmt: skip


def test_the_studio_sets_its_own_limits():
    limits = BathLimits(target=grams_per_litre(100), warn_below=grams_per_litre(95))

    assert by_strength(grams_per_litre(90), limits).level == "soon"


def test_limits_must_follow_one_another():
    with pytest.raises(
        ChemistryValueError, match=r"Stop must not lie above warn, nor warn above the target."
    ):
        BathLimits(target=grams_per_litre(75))
    with pytest.raises(ChemistryValueError, match=r"The lower pH must be at most 5, got 6."):
        BathLimits(ph_least=Fraction(6))
    with pytest.raises(ChemistryValueError, match=r"The count plates_to_sun must be at least 1, got 0."):
        BathLimits(plates_to_sun=0)
