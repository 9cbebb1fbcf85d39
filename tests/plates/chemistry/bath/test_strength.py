from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plates.chemistry.bath.strength import Strength, grains_per, grams_per_litre, per_cent_w_v
from plates.chemistry.units import GRAIN, IMPERIAL_OUNCE, UNITS, US_OUNCE
from plates.chemistry.values import ChemistryValueError
from tests.plates.chemistry.strategies import few, thousandths


@pytest.mark.parametrize(
    ("ounce", "litre"),
    # trade-facts s.4 (A): 2.191 111 8 and 2.280 602 8 g/L.
    [(US_OUNCE, "2.1911118"), (IMPERIAL_OUNCE, "2.2806028")],
    ids=["US", "imperial"],
)
def test_a_grain_to_the_ounce_in_grams_to_the_litre(ounce, litre):
    assert round(grains_per(1, ounce).grams_per_litre, 7) == Fraction(litre)


@pytest.mark.parametrize(
    ("grains", "ounce", "litre"),
    # Wall's bath of 240 grains in 8 ounces and Estabrooke's of 50 grains: trade-facts s.5, R2 and R5 (A, worked out C).
    [
        (30, IMPERIAL_OUNCE, "68.418"),
        (30, US_OUNCE, "65.733"),
        (50, US_OUNCE, "109.556"),
        (50, IMPERIAL_OUNCE, "114.030"),
    ],
    ids=["Wall-imperial", "Wall-US", "Estabrooke-US", "Estabrooke-imperial"],
)
def test_the_printed_baths_in_grams_to_the_litre(grains, ounce, litre):
    assert round(grains_per(grains, ounce).grams_per_litre, 3) == Fraction(litre)


def test_9_per_cent_by_volume_is_90_grams_to_the_litre():
    assert per_cent_w_v(9) == grams_per_litre(90)


@few
@given(thousandths(0, 400), st.sampled_from([US_OUNCE, IMPERIAL_OUNCE]))
def test_grains_to_the_ounce_come_back_exactly(grains, ounce):
    assert grains_per(grains, ounce).grains_per(ounce) == grains


def test_an_ounce_by_weight_is_no_measure_of_a_bath():
    with pytest.raises(
        ChemistryValueError, match=r"Say which fluid ounce, US or imperial; the avoirdupois ounce"
    ):
        grains_per(30, UNITS["avoirdupois_ounce"])


def test_a_slipped_decimal_point_is_refused():
    with pytest.raises(ChemistryValueError, match=r"The strength in g/L must be at most 1000, got 90000."):
        grams_per_litre(90_000)


def test_a_strength_must_be_exact():
    with pytest.raises(ChemistryValueError, match=r"A strength must be a fraction"):
        Strength(90)


def test_one_grain_in_one_ounce_by_the_definition():
    one = grains_per(1, US_OUNCE)

    assert one.per_cent_w_v == GRAIN / US_OUNCE.size * 100
