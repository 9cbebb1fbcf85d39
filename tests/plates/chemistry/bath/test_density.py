"""Held against trade-facts s.4; where a row is worked out there (C) this checks the working out, not the measuring.

The water of other temperatures is that of the steam tables (IAPWS-95), read once with a reference library: 0.99910 g/mL
at 15 °C, 0.99705 at 25. So is sodium nitrate's expansion at 8 % w/w by Laliberté and Cooper's printed model: 0.00032
g/mL a degree, which is near the 0.0003 taken here from memory (E) for silver nitrate.
"""

from fractions import Fraction

import pytest
from hypothesis import given

from plates.chemistry.bath.density import (
    A_DEGREE,
    TABLE,
    density,
    per_cent_of,
    per_cent_w_w,
    strength_of,
)
from plates.chemistry.bath.hydrometer import specific_gravity
from plates.chemistry.bath.strength import Strength, grams_per_litre
from plates.chemistry.units import IMPERIAL_OUNCE, US_OUNCE
from plates.chemistry.values import ChemistryValueError
from tests.plates.chemistry.facts import DENSITY, ROUND_TARGETS
from tests.plates.chemistry.strategies import few, thousandths

ROWS = pytest.mark.parametrize(
    ("sure", "share", "rho", "gravity", "litre", "w_v", "us", "imperial"),
    DENSITY,
    ids=[f"{row[1]}%-{row[0]}" for row in DENSITY],
)


def is_printed(value, printed):
    """Whether a value rounds to what is printed, to the last figure there (one unit of it, for rounding twice)."""
    places = len(printed.partition(".")[2])
    return abs(value - Fraction(printed)) <= Fraction(11, 10) / 10**places


def test_the_table_has_every_printed_row():
    assert [str(share) for share, _ in TABLE] == [row[1] for row in DENSITY]


def by_weight(share):
    """The strength of so many per cent by weight at 20 °C: mass is volume times density."""
    return Strength(Fraction(share) * density(Fraction(share)) * 10)


@ROWS
def test_a_row_has_the_printed_strength_and_gravity(sure, share, rho, gravity, litre, w_v, us, imperial):
    strength = by_weight(share)

    assert round(density(Fraction(share)), 4) == Fraction(rho)
    assert is_printed(strength.grams_per_litre, litre)
    assert is_printed(strength.per_cent_w_v, w_v)
    assert us == "-" or is_printed(strength.grains_per(US_OUNCE), us)
    assert imperial == "-" or is_printed(strength.grains_per(IMPERIAL_OUNCE), imperial)
    assert gravity == "-" or is_printed(specific_gravity(density(Fraction(share)), "20/20"), gravity)


@pytest.mark.parametrize(
    ("litre", "gravity"), ROUND_TARGETS, ids=[f"{litre}-C" for litre, _ in ROUND_TARGETS]
)
def test_round_strengths_have_the_gravities_worked_out_for_them(litre, gravity):
    share = per_cent_w_w(grams_per_litre(int(litre)))

    assert is_printed(specific_gravity(density(share), "20/20"), gravity)


def test_90_grams_in_the_litre_are_8_39_per_cent_by_weight():
    # trade-facts s.4 (C); that 9 % by weight are 97.1 g/L is a row of the table.
    assert is_printed(by_weight("8.39").grams_per_litre, "90.0")


@few
@given(thousandths(0, 30))
def test_density_and_share_come_back_exactly(share):
    assert per_cent_of(density(share)) == share


@few
@given(thousandths(0, 396))
def test_strength_and_share_come_back_exactly(litre):
    assert by_weight(per_cent_w_w(grams_per_litre(litre))).grams_per_litre == litre


@few
@given(thousandths(0, 30), thousandths(0, 30))
def test_the_stronger_of_two_solutions_is_the_denser(one, other):
    assert (one < other) == (density(one) < density(other))


@few
@given(thousandths(1, 29), thousandths(15, 25))
def test_the_same_solution_read_warm_or_cool_has_one_strength(share, celsius):
    assert strength_of(density(share, celsius), celsius) == by_weight(share)


def test_five_degrees_make_about_2_grams_to_the_litre():
    # trade-facts s.4 (E): 5 °C are about 1.8 g/L.
    cool = strength_of(density(8), 20).grams_per_litre
    unnoticed = strength_of(density(8, 25), 20).grams_per_litre

    assert is_printed(cool - unnoticed, "1.8")


def test_water_swells_nearly_by_the_degree_that_is_taken():
    # IAPWS-95 (A): 0.99910 g/mL at 15 °C and 0.99705 at 25.
    water = (Fraction("0.99910") - Fraction("0.99705")) / 10

    assert water < A_DEGREE < Fraction("0.00035")


@pytest.mark.parametrize(
    ("ask", "why"),
    [
        (lambda: density(8, Fraction("14.9")), r"The temperature in °C must be at"),
        (lambda: density(8, Fraction("25.1")), r"The temperature in °C must be at"),
        (lambda: density(Fraction("-0.1")), r"Per cent by weight .* must be at"),
        (lambda: density(Fraction("30.1")), r"Per cent by weight .* must be at"),
        (lambda: per_cent_of(Fraction("0.99")), r"A density of 0.9900 g/mL .* outside 0.9982 to 1.3204"),
        (lambda: per_cent_of(Fraction("1.33")), r"A density of 1.3300 g/mL .* outside 0.9982 to 1.3204"),
        (lambda: per_cent_w_w(grams_per_litre(400)), r"The strength in g/L must be at most"),
    ],
)
def test_outside_the_table_it_does_not_answer(ask, why):
    with pytest.raises(ChemistryValueError, match=why):
        ask()
