"""Held against trade-facts s.3: one published titration (B) and what was worked out from it (C)."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plates.chemistry.bath.dosing import bath
from plates.chemistry.bath.drag_out import CarryOff, after_plates, silver_nitrate_of_plate
from plates.chemistry.bath.strength import grams_per_litre
from plates.chemistry.bath.titration import SILVER, SILVER_NITRATE
from plates.chemistry.values import ChemistryValueError
from tests.plates.chemistry.facts import CONSUMPTION, SILVER_OF_A_PLATE
from tests.plates.chemistry.strategies import few, thousandths

AT_90 = grams_per_litre(90)
QUARTER = Fraction("89.11")
FOUR_BY_FIVE = Fraction("129.032")
STOCK = grams_per_litre(300)


@pytest.mark.parametrize(
    ("size", "area", "silver"), SILVER_OF_A_PLATE, ids=[f"{size}-B" for size, _, _ in SILVER_OF_A_PLATE]
)
def test_a_plate_takes_the_silver_that_was_measured(size, area, silver):
    assert silver_nitrate_of_plate(Fraction(area), AT_90) == pytest.approx(float(silver), rel=0.02)


def test_the_model_gives_the_measured_figure_at_the_measured_strength():
    _sure, milligrams = CONSUMPTION["agno3_mg"]

    assert silver_nitrate_of_plate(1, AT_90) * 1000 == pytest.approx(float(milligrams), abs=0.015)


def test_the_figures_start_as_published():
    assert CarryOff().clinging_ml == Fraction(CONSUMPTION["bath_ml"][1])
    assert CarryOff().film_grams * 1000 == Fraction(CONSUMPTION["film_agno3_mg"][1])


def test_a_square_centimetre_takes_about_0_88_mg_of_metal():
    # trade-facts s.3 (C).
    assert silver_nitrate_of_plate(1, AT_90) * SILVER / SILVER_NITRATE * 1000 == pytest.approx(0.88, abs=0.01)


def test_a_litre_falls_as_much_by_ten_plates_as_was_worked_out():
    # trade-facts s.3 (C, from E): 1 L falls by roughly 0.6 to 1.1 g/L in 10 plates of 4×5.
    after = after_plates(bath(1000, AT_90), [FOUR_BY_FIVE] * 10)

    assert Fraction("0.6") < 90 - after.strength.grams_per_litre < Fraction("1.1")


def test_a_plate_carries_off_its_drag_of_the_bath():
    # 1.8 mL for a 4×5 (C); nothing left behind by the collodion here.
    after = after_plates(bath(1000, AT_90), [FOUR_BY_FIVE], CarryOff(left_ml=Fraction(0)))

    assert 1000 - after.millilitres == pytest.approx(1.8, abs=0.01)


@few
@given(st.lists(thousandths(10, 500), max_size=5), thousandths(30, 150))
def test_silver_leaves_the_bath_only_with_plates(areas, litre):
    before = bath(2000, grams_per_litre(litre))
    carried, now = [], before
    for area in areas:
        carried.append(silver_nitrate_of_plate(area, now.strength))
        now = after_plates(now, [area])

    assert before.silver_nitrate_grams - sum(carried) == now.silver_nitrate_grams


def test_a_bath_cannot_lose_more_than_it_holds():
    with pytest.raises(
        ChemistryValueError, match=r"These plates would take more silver than the bath holds."
    ):
        after_plates(bath(10, AT_90), [Fraction(600)] * 2)


def test_a_plate_has_an_area():
    with pytest.raises(ChemistryValueError, match=r"The area in cm² must be above 0, got 0."):
        silver_nitrate_of_plate(0, AT_90)


def test_a_figure_out_of_all_reason_is_refused():
    with pytest.raises(ChemistryValueError, match=r"The figure for clinging_ml must be at most 1, got 14."):
        CarryOff(clinging_ml=Fraction(14))


def test_a_smaller_plate_takes_less():
    assert silver_nitrate_of_plate(QUARTER, AT_90) < silver_nitrate_of_plate(FOUR_BY_FIVE, AT_90)
