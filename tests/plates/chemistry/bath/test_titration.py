"""Held against D. Harvey, Analytical Chemistry 2.0 (open textbook), Practice Exercise 9.23: 1.963 g of an alloy made up
to 100 mL, 25.00 mL of it take 27.19 mL of 0.1078 M thiocyanate. The numbers were read (A); the answer, 64.42 % of
silver, is from memory (E). A decinormal solution holds 16.988 g of silver nitrate a litre by a metallurgical page (B;
older atomic weights)."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plates.chemistry.bath.strength import grams_per_litre
from plates.chemistry.bath.titration import (
    SILVER_CHLORIDE,
    SILVER_NITRATE,
    by_thiocyanate,
    compare,
)
from plates.chemistry.values import ChemistryValueError
from tests.plates.chemistry.strategies import few, thousandths

# IUPAC standard atomic weights (from memory, E).
SILVER, NITROGEN, OXYGEN, CHLORINE = (
    Fraction(weight) for weight in ("107.8682", "14.007", "15.999", "35.45")
)


def titrated(used, molar, sample):
    return by_thiocyanate(used_ml=Fraction(used), molar=Fraction(molar), sample_ml=Fraction(sample))


def test_the_silver_of_the_textbooks_alloy():
    salt = titrated("27.19", "0.1078", "25.00").grams_per_litre / 10  # in 100 mL

    assert round(salt * SILVER / SILVER_NITRATE / Fraction("1.963") * 100, 1) == Fraction("64.4")


def test_a_tenth_of_a_mole_is_the_decinormal_solution():
    assert titrated("50", "0.1", "50").grams_per_litre == pytest.approx(16.988, abs=0.002)


def test_the_formula_that_the_trade_facts_give():
    # c = V M 169.873 / V of the sample (B): 52.98 mL of 0.1 M for 10 mL of a bath of 90 g/L.
    assert round(titrated("52.98", "0.1", "10").grams_per_litre, 1) == Fraction("90.0")


def test_the_masses_of_a_mole_are_those_of_its_atoms():
    assert abs(SILVER_NITRATE - (SILVER + NITROGEN + 3 * OXYGEN)) < Fraction("0.001")
    assert abs(SILVER_CHLORIDE - (SILVER + CHLORINE)) < Fraction("0.003")


def test_silver_is_63_499_parts_in_a_hundred_thousand_of_its_nitrate():
    # trade-facts s.3 (C): 0.63499.
    assert pytest.approx(0.63499, abs=0.00002) == SILVER / SILVER_NITRATE


@few
@given(
    thousandths(1, 100),
    thousandths(1, 10),
    thousandths(5, 100),
    st.integers(1, 9),
)
def test_twice_the_sample_takes_twice_the_thiocyanate(used, molar, sample, times):
    used, molar = used / 10, molar / 10

    assert titrated(used, molar, sample) == titrated(used * times, molar, sample * times)


def test_float_and_titration_that_agree_are_left_alone():
    found = compare(grams_per_litre(93), grams_per_litre(90))

    assert (found.strength, found.warnings) == (grams_per_litre(90), ())


@pytest.mark.parametrize(("floated", "way"), [(96, "heavier"), (84, "lighter")])
def test_where_they_differ_the_titration_counts(floated, way):
    found = compare(grams_per_litre(floated), grams_per_litre(90))

    assert found.strength == grams_per_litre(90)
    assert [way in warning and "go by the titration" in warning for warning in found.warnings] == [True]


def test_a_sample_of_nothing_is_refused():
    with pytest.raises(ChemistryValueError, match=r"The sample in mL must be above 0, got 0."):
        titrated("1", "0.1", "0")
