"""Held against the test values of trade-facts s.4 (worked out there, C), and against what mass and silver must do."""

from fractions import Fraction

import pytest
from hypothesis import given

from plates.chemistry.bath.density import density, strength_of
from plates.chemistry.bath.dosing import bath, make_up, strengthen, strengthen_with_stock, weaken
from plates.chemistry.bath.hydrometer import read_hydrometer
from plates.chemistry.bath.strength import Strength, grams_per_litre
from plates.chemistry.values import ChemistryValueError
from tests.plates.chemistry.strategies import few, rising, thousandths

AT_90 = grams_per_litre(90)
READ = read_hydrometer(Fraction("1.0640"), "20/20", celsius=20, plates_since_made=0).strength
WORKED_EXAMPLE = bath(1500, READ)


def told(value, places):
    return str(round(float(value), places))


def test_dry_salt_by_mass_in_the_worked_example():
    # 20.01 g there: its table was read between other roundings, 0.01 g/L away.
    addition = strengthen(WORKED_EXAMPLE, AT_90)

    assert addition.silver_nitrate_grams == pytest.approx(20.01, abs=0.015)
    assert told(addition.after.millilitres, 1) == "1503.6"


def test_dry_salt_agrees_with_the_short_formula():
    # m = V (c2 - c1) / (1 - 0.000171 c2), the apparent room of the salt being 0.171 mL/g: 20.0 g.
    short = Fraction(3, 2) * (90 - READ.grams_per_litre) / (1 - Fraction("0.000171") * 90)

    assert told(short, 1) == told(strengthen(WORKED_EXAMPLE, AT_90).silver_nitrate_grams, 1) == "20.0"


def test_salt_by_the_volume_alone_would_be_too_little():
    # 19.7 g, the naive figure.
    lacking = Fraction(3, 2) * (90 - READ.grams_per_litre)

    assert told(lacking, 1) == "19.7"
    assert lacking < strengthen(WORKED_EXAMPLE, AT_90).silver_nitrate_grams


def test_stock_solution_in_the_worked_example():
    addition = strengthen_with_stock(WORKED_EXAMPLE, AT_90, grams_per_litre(300))

    assert addition.stock_ml == pytest.approx(93.7, abs=0.1)


def test_water_in_the_worked_example():
    assert told(weaken(bath(1000, grams_per_litre(105)), AT_90).water_ml, 1) == "166.7"


@few
@given(thousandths(100, 5000), rising(0, 200))
def test_dry_salt_adds_up_in_silver_and_in_mass(volume, strengths):
    held, wanted = strengths
    weak = bath(volume, Strength(held))

    addition = strengthen(weak, Strength(wanted))

    added = addition.silver_nitrate_grams
    assert added >= 0
    assert addition.after.silver_nitrate_grams == weak.silver_nitrate_grams + added
    assert addition.after.grams == weak.grams + added


@few
@given(thousandths(100, 5000), rising(0, 200), thousandths(201, 390))
def test_stock_adds_up_in_silver_and_in_volume(volume, strengths, stock):
    held, wanted = strengths
    weak = bath(volume, Strength(held))

    addition = strengthen_with_stock(weak, Strength(wanted), Strength(stock))

    poured = addition.stock_ml
    assert addition.after.silver_nitrate_grams == weak.silver_nitrate_grams + poured * stock / 1000
    assert addition.after.millilitres == weak.millilitres + poured


@few
@given(thousandths(100, 5000), rising(1, 200))
def test_water_leaves_the_silver_as_it_was(volume, strengths):
    wanted, held = strengths
    strong = bath(volume, Strength(held))

    addition = weaken(strong, Strength(wanted))

    assert addition.after.silver_nitrate_grams == strong.silver_nitrate_grams
    assert addition.after.millilitres == strong.millilitres + addition.water_ml


@few
@given(thousandths(100, 5000), rising(10, 200))
def test_strengthened_and_weakened_again_it_is_the_same_bath_but_larger(volume, strengths):
    held, wanted = strengths
    weak = bath(volume, Strength(held))

    back = weaken(strengthen(weak, Strength(wanted)).after, Strength(held)).after

    assert back.strength == weak.strength
    assert back.millilitres >= weak.millilitres


@few
@given(thousandths(300, 900), thousandths(10, 90))
def test_a_bath_made_up_adds_up_in_silver_and_in_mass(volume, held):
    short, whole = bath(volume, Strength(held)), bath(1000, AT_90)

    addition = make_up(short, whole)

    water_grams = addition.water_ml * density(0)
    assert short.silver_nitrate_grams + addition.silver_nitrate_grams == whole.silver_nitrate_grams
    assert short.grams + addition.silver_nitrate_grams + water_grams == whole.grams


def test_what_plates_carried_off_is_made_good_with_solution_of_full_strength():
    # trade-facts s.4: a volume short by what clings to plates is restored with solution of the target strength.
    addition = make_up(bath(900, AT_90), bath(1000, AT_90))

    assert strength_of((addition.silver_nitrate_grams + addition.water_ml * density(0)) / 100) == AT_90


def test_an_addition_says_how_to_handle_the_salt():
    assert "goggles and gloves" in strengthen(WORKED_EXAMPLE, AT_90).caution


def test_a_bath_that_is_strong_enough_is_not_strengthened():
    with pytest.raises(
        ChemistryValueError, match=r"holds 95.0 g/L already, more than 90.0 g/L: weaken it with water."
    ):
        strengthen(bath(1000, grams_per_litre(95)), AT_90)


def test_stock_that_is_no_stronger_than_the_target_is_refused():
    with pytest.raises(
        ChemistryValueError, match=r"The stock of 90 g/L must be stronger than the bath is to be: 90"
    ):
        strengthen_with_stock(WORKED_EXAMPLE, AT_90, AT_90)


def test_water_does_not_strengthen():
    with pytest.raises(ChemistryValueError, match=r"Water makes a bath of 80.0 g/L weaker, never 90.0 g/L."):
        weaken(bath(1000, grams_per_litre(80)), AT_90)


def test_a_bath_that_holds_too_much_cannot_be_made_up():
    with pytest.raises(ChemistryValueError, match=r"Salt and water cannot make 1000 mL of that strength"):
        make_up(bath(1000, grams_per_litre(120)), bath(1000, AT_90))


def test_a_bath_of_nothing_is_none():
    with pytest.raises(ChemistryValueError, match=r"The volume in mL must be above 0, got 0."):
        bath(0, AT_90)
