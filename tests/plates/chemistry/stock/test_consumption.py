"""Held against trade-facts s.3; only the fixer's figure is printed (B), the rest worked out (C) or from memory (E)."""

from fractions import Fraction

import pytest

from plates.chemistry.stock.consumption import (
    FIXER_CM2_A_LITRE,
    RATES,
    Fixer,
    Rate,
    used_ml,
)
from plates.chemistry.values import ChemistryValueError
from tests.plates.chemistry.facts import CONSUMPTION
from tests.plates.chemistry.facts import FIXER_CM2_A_LITRE as PRINTED

SOLUTIONS = ("collodion", "developer", "varnish")
EIGHT_BY_TEN = Fraction("516.128")
# US fluid ounces in mL (Handbook 44, A).
OUNCE = Fraction("29.5735295625")


@pytest.mark.parametrize(
    "solution", SOLUTIONS, ids=[f"{name}-{CONSUMPTION[f'{name}_ml'][0]}" for name in SOLUTIONS]
)
def test_a_solution_is_used_by_area_as_the_facts_have_it(solution):
    sure, rate = CONSUMPTION[f"{solution}_ml"]

    assert used_ml(solution, [100, 50]) == 150 * Fraction(rate)
    assert RATES[solution].source.confidence == sure


def test_the_developer_is_three_to_five_ounces_on_the_largest_plate():
    # Practical Photography, s. 915 (A); the size is not printed, 8×10 supposed (C): 0.17 to 0.29 mL/cm².
    rate = RATES["developer"]

    assert rate.least < 3 * OUNCE / EIGHT_BY_TEN < rate.usual < 5 * OUNCE / EIGHT_BY_TEN < rate.most


def test_a_4x5_takes_about_4_ml_of_collodion():
    # trade-facts s.3 (E).
    assert used_ml("collodion", [Fraction("129.03")]) == pytest.approx(4, abs=0.2)


def test_a_litre_of_fixer_fixes_the_printed_area():
    # Darkroom Cookbook, 3rd edition, p. 108 (B): 20 sheets of 8×10 a litre, 10 323 cm², told as 10 000.
    assert FIXER_CM2_A_LITRE == PRINTED
    assert Fixer(Fraction(1000)).left_cm2 == PRINTED <= 20 * EIGHT_BY_TEN


def test_fixer_is_spent_when_its_area_is_fixed():
    assert Fixer(Fraction(500), fixed_cm2=Fraction(4999)).spent is None
    assert "It has fixed 5000 cm² of plate" in Fixer(Fraction(500), fixed_cm2=Fraction(5000)).spent


def test_fixer_is_spent_when_it_clears_half_as_fast():
    # The same page (B): discard when the clearing time has doubled.
    fresh = Fixer(Fraction(1000), clears_fresh=Fraction(60), clears_now=Fraction(119))
    tired = Fixer(Fraction(1000), clears_fresh=Fraction(60), clears_now=Fraction(120))

    assert fresh.spent is None
    assert "A plate clears in 120 s, twice as long" in tired.spent


def test_fixer_never_has_less_than_nothing_left():
    assert Fixer(Fraction(100), fixed_cm2=Fraction(9000)).left_cm2 == 0


def test_a_solution_without_a_rate_is_refused():
    with pytest.raises(
        ChemistryValueError, match=r"There is no rate for 'fixer': one of collodion, developer, varnish"
    ):
        used_ml("fixer", [100])


@pytest.mark.parametrize(
    ("least", "usual", "most"), [("0", "1", "2"), ("2", "1", "3"), ("1", "3", "2"), ("1", "2", "11")]
)
def test_rates_must_follow_one_another(least, usual, most):
    with pytest.raises(ChemistryValueError, match=r"rate must be"):
        Rate(Fraction(least), Fraction(usual), Fraction(most), RATES["varnish"].source)


def test_a_fixer_must_have_a_volume_and_clear_in_some_time():
    with pytest.raises(ChemistryValueError, match=r"The volume in mL must be above 0"):
        Fixer(Fraction(0))
    with pytest.raises(ChemistryValueError, match=r"The clearing time in seconds must be above 0"):
        Fixer(Fraction(1), clears_now=Fraction(0))
