from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plates.chemistry.quantities import (
    APOTHECARIES,
    AVOIRDUPOIS,
    IMPERIAL,
    US,
    Quantity,
    grams,
    in_measures,
    in_words,
    millilitres,
    quantity,
)
from plates.chemistry.units import GRAM, UNITS
from plates.chemistry.values import ChemistryValueError
from tests.plates.chemistry.strategies import few, thousandths


@pytest.mark.parametrize(
    ("whole", "measures", "told"),
    # By hand from 437.5 or 480 grains and 480 minims to the ounce, 60 to the drachm.
    [
        (quantity(500, "grain"), APOTHECARIES, "1 apothecaries ounce 20 grains"),
        (quantity(500, "grain"), AVOIRDUPOIS, "1 avoirdupois ounce 62.5 grains"),
        (quantity(90, "us_minim"), US, "1 US fluid drachm 30 US minims"),
        (quantity(1, "imperial_pint"), IMPERIAL, "20 imperial fluid ounces"),
        (quantity(1, "imperial_pint"), US, "19 US fluid ounces 1 US fluid drachm 43.3 US minims"),
        (grams(0), APOTHECARIES, "0 grains"),
    ],
    ids=["apothecaries", "avoirdupois", "minims", "pint", "across", "nothing"],
)
def test_a_quantity_is_told_in_the_measures_at_hand(whole, measures, told):
    assert in_words(in_measures(whole, measures)) == told


def test_it_is_rounded_before_it_is_shared_out():
    almost = Quantity(Fraction("59.97"), UNITS["us_minim"])

    assert in_words(in_measures(almost, US)) == "1 US fluid drachm"


@few
@given(thousandths(0, 5000), st.sampled_from([US, IMPERIAL]))
def test_what_is_told_is_the_whole_to_half_the_finest_step(amount, measures):
    told = sum(each.metric for each in in_measures(millilitres(amount), measures))

    assert abs(told - amount) <= measures[-1].size / 20


def test_a_trace_is_never_told_as_nothing():
    assert str(grams(Fraction("0.0019"))) == "0.0019 g"
    assert str(grams(Fraction("0.285"))) == "0.29 g"


@pytest.mark.parametrize(
    ("amount", "told"), [(1, "1 grain"), (2, "2 grains"), (Fraction("1.004"), "1 grain")]
)
def test_one_is_told_in_the_singular(amount, told):
    assert str(quantity(amount, "grain")) == told


def test_less_than_nothing_is_refused():
    with pytest.raises(ChemistryValueError, match=r"The amount must be at least 0, got -1."):
        quantity(-1, "g")


def test_an_amount_that_is_not_exact_is_refused():
    with pytest.raises(ChemistryValueError, match=r"must be a fraction"):
        Quantity(1, GRAM)


def test_a_quantity_is_not_taken_less_than_no_times():
    with pytest.raises(ChemistryValueError, match=r"The factor must be at least 0"):
        grams(1).times(-1)
