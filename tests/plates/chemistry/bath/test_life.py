"""How much plate a bath still takes. Held against the differential equation of the same figures, solved in floats."""

from fractions import Fraction
from math import log

import pytest

from plates.chemistry.bath.care import BathLimits
from plates.chemistry.bath.dosing import Bath
from plates.chemistry.bath.drag_out import CarryOff
from plates.chemistry.bath.life import PLATE_CM2, cm2_until_rest, cm2_until_weak
from plates.chemistry.bath.strength import Strength


def bath(millilitres, grams_per_litre):
    return Bath(Fraction(millilitres), Strength(Fraction(grams_per_litre)))


def by_the_equation(millilitres, first, last):
    """Strength c falls by (left·c + film) dA / V, and V by (clinging - left) dA: solved for the area A."""
    rates = CarryOff()
    left, cling, film = float(rates.left_ml), float(rates.clinging_ml), float(rates.film_grams)
    fallen = log((left * first / 1000 + film) / (left * last / 1000 + film)) / left
    return millilitres * (1 - 2.718281828459045 ** (-(cling - left) * fallen)) / (cling - left)


@pytest.mark.parametrize(
    ("millilitres", "strength"), [(1500, 90), (800, 75)], ids=["1500 mL at 90", "800 mL at 75"]
)
def test_the_area_agrees_with_the_equation_to_a_few_plates(millilitres, strength):
    found = cm2_until_weak(bath(millilitres, strength))

    assert found == pytest.approx(by_the_equation(millilitres, strength, 70), abs=3 * PLATE_CM2)


def test_a_bath_below_its_stop_takes_nothing():
    assert cm2_until_weak(bath(1500, 69)) == 0


def test_a_bath_that_never_weakens_is_not_counted_to_the_end():
    no_loss = CarryOff(Fraction(0), Fraction(0), Fraction(0))

    assert cm2_until_weak(bath(1500, 90), BathLimits(), no_loss) is None


def test_the_rest_in_light_is_due_after_the_plates_of_the_limit():
    # trade-facts s.3: a hundred plates of 129 cm² are the default, from memory (E).
    assert cm2_until_rest(0) == 100 * PLATE_CM2
    assert cm2_until_rest(Fraction(20_000)) == 0
