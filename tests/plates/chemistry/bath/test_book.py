"""The book of a bath: each step as the formulas of trade-facts s.4 have it (C), silver never made and never lost."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plates.chemistry.bath.book import Added, Dipped, Measured, PouredOff, reckoned
from plates.chemistry.bath.dosing import bath, strengthen
from plates.chemistry.bath.drag_out import after_plates
from plates.chemistry.bath.strength import grams_per_litre
from tests.plates.chemistry.strategies import few, thousandths

NINETY = {"millilitres": Fraction(1500), "silver_grams": Fraction(135)}
FOUR_BY_FIVE = Dipped(Fraction("129.032"), "4×5")


def strength(book):
    return float(book.bath.strength.grams_per_litre)


def test_a_new_bath_holds_what_it_was_made_with():
    book = reckoned([], **NINETY)

    assert (book.bath.millilitres, book.bath.strength) == (1500, grams_per_litre(90))


def test_plates_take_what_the_published_test_says():
    # 23 plates of 4×5 took 0.18 g each at 9 % w/v: one published titration (B).
    book = reckoned([FOUR_BY_FIVE] * 23, **NINETY)

    assert float(book.carried_grams) == pytest.approx(23 * 0.18, rel=0.02)
    assert (book.plates, len(book.points)) == (23, 24)


def test_the_steps_agree_with_the_exact_reckoning_of_many_plates():
    exact = after_plates(bath(1500, grams_per_litre(90)), [FOUR_BY_FIVE.area_cm2] * 40)

    book = reckoned([FOUR_BY_FIVE] * 40, **NINETY)

    assert strength(book) == pytest.approx(float(exact.strength.grams_per_litre), abs=1e-6)


def test_the_salt_of_the_worked_example_brings_the_bath_back():
    # Trade-facts s.4: 1.5 L at 76.9 g/L takes 20.0 g (exact by mass 20.01 g) to 90 g/L; end volume 1503.6 mL (C).
    weak = {"millilitres": Fraction(1500), "silver_grams": Fraction("115.35")}

    book = reckoned([Added(salt_grams=Fraction("20.01"))], **weak)

    assert strength(book) == pytest.approx(90, abs=0.05)
    assert float(book.millilitres) == pytest.approx(1503.6, abs=0.1)


def test_the_stock_of_the_worked_example_brings_the_bath_back():
    # The same bath takes 93.7 mL of stock at 300 g/L (C).
    weak = {"millilitres": Fraction(1500), "silver_grams": Fraction("115.35")}

    book = reckoned([Added(millilitres=Fraction("93.7"), grams_per_litre=Fraction(300))], **weak)

    assert strength(book) == pytest.approx(90, abs=0.05)


def test_the_water_of_the_worked_example_weakens_the_bath():
    # 1 L at 105 g/L takes 166.7 mL of water to 90 g/L (C).
    strong = {"millilitres": Fraction(1000), "silver_grams": Fraction(105)}

    assert strength(reckoned([Added(millilitres=Fraction("166.7"))], **strong)) == pytest.approx(90, abs=0.01)


def test_a_measurement_takes_the_place_of_what_was_reckoned_and_keeps_what_the_book_said():
    book = reckoned([FOUR_BY_FIVE, Measured(grams_per_litre(80))], **NINETY)

    newest = book.points[-1]
    assert (newest.measured, strength(book), book.carried_grams) == (True, 80, 0)
    # 135 g less 0.178 g, in 1500 mL less 1.81 mL that cling and with 0.75 mL of spirit left behind.
    assert float(newest.said.grams_per_litre) == pytest.approx(89.94, abs=0.005)


def test_a_bath_of_which_nothing_is_known_is_known_by_its_first_full_reading():
    unknown = {"millilitres": Fraction(1000), "silver_grams": None}

    before, after = reckoned([FOUR_BY_FIVE], **unknown), reckoned([Measured(grams_per_litre(85))], **unknown)

    assert before.bath is None
    assert strength(after) == 85


def test_a_measured_volume_keeps_the_strength():
    book = reckoned([Measured(millilitres=Fraction(1400))], **NINETY)

    assert (book.bath.millilitres, strength(book)) == (1400, 90)


def test_what_is_poured_off_takes_its_silver_along():
    book = reckoned([PouredOff(Fraction(500))], **NINETY)

    assert (book.silver_grams, strength(book)) == (90, 90)


def test_a_bath_poured_off_whole_is_no_bath():
    assert reckoned([PouredOff(Fraction(1500))], **NINETY).bath is None


def test_more_plates_than_the_bath_can_silver_leave_it_at_nothing_until_it_is_read():
    tiny = {"millilitres": Fraction(10), "silver_grams": Fraction(1, 10)}

    book = reckoned([FOUR_BY_FIVE] * 4, **tiny)

    assert (book.silver_grams, book.plates) == (0, 4)
    assert abs(book.carried_grams - Fraction(1, 10)) < Fraction(1, 10**7)


@few
@given(st.lists(thousandths(30, 500), max_size=20))
def test_silver_in_the_bath_and_carried_off_together_stay_what_they_were(areas):
    book = reckoned([Dipped(area) for area in areas], **NINETY)

    assert abs(book.silver_grams + book.carried_grams - 135) < Fraction(1, 10**7)


@few
@given(thousandths(20, 89))
def test_the_dose_of_the_formula_brings_any_weak_bath_to_its_target(held):
    weak = bath(1200, grams_per_litre(held))
    dose = strengthen(weak, grams_per_litre(90)).silver_nitrate_grams

    book = reckoned(
        [Added(salt_grams=dose)], millilitres=weak.millilitres, silver_grams=weak.silver_nitrate_grams
    )

    assert abs(book.bath.strength.grams_per_litre - 90) < Fraction(1, 10**5)
