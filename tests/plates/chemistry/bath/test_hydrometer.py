from fractions import Fraction

import pytest

from plates.chemistry.bath.hydrometer import AWAY_FROM_20, USED_BATH, read_argentometer, read_hydrometer
from plates.chemistry.units import IMPERIAL_OUNCE, US_OUNCE
from plates.chemistry.values import ChemistryValueError


def read(gravity, scale="20/20", celsius=20, plates=0):
    return read_hydrometer(Fraction(gravity), scale, celsius=celsius, plates_since_made=plates)


def test_a_reading_gives_the_strength_of_the_worked_example():
    # trade-facts s.4 (C): 1.0640 at 20/20 is 1.0621 g/mL, 7.24 % w/w, 76.9 g/L.
    assert round(read("1.0640").strength.grams_per_litre, 1) == Fraction("76.9")


@pytest.mark.parametrize(
    ("scale", "gravity"),
    # 90 g/L is 1.0728 g/mL (trade-facts s.4, C); over the water of the scale: 0.99821, 0.99904, 1.
    [("20/20", "1.0748"), ("60F/60F", "1.0739"), ("20/4", "1.0728")],
)
def test_one_bath_reads_differently_on_each_scale(scale, gravity):
    assert read(gravity, scale).strength.grams_per_litre == pytest.approx(90, abs=0.1)


def test_a_warm_bath_reads_low_and_is_put_right():
    assert read("1.0748", celsius=25).strength.grams_per_litre > read("1.0748").strength.grams_per_litre + 1


def test_far_from_20_degrees_it_says_so():
    assert read("1.0748", celsius=22).warnings == ()
    assert read("1.0748", celsius=24).warnings == (AWAY_FROM_20,)


def test_a_used_bath_misleads_the_float():
    assert read("1.0748", plates=1).warnings == (USED_BATH,)
    assert read("1.0748", plates=0).warnings == ()


@pytest.mark.parametrize(
    ("ounce", "litre"), [(US_OUNCE, "98.6"), (IMPERIAL_OUNCE, "102.6")], ids=["US", "imperial"]
)
def test_an_argentometer_reads_grains_to_the_ounce_that_was_said(ounce, litre):
    # Practical Photography, s. 892 on: add silver below "45 degrees", that is grains (A); s.4's factors (A).
    assert round(read_argentometer(45, ounce, plates_since_made=0).strength.grams_per_litre, 1) == Fraction(
        litre
    )


def test_an_argentometer_is_misled_too():
    assert read_argentometer(45, US_OUNCE, plates_since_made=30).warnings == (USED_BATH,)


def test_a_scale_that_is_not_known_is_refused():
    with pytest.raises(
        ChemistryValueError, match=r"The scale must be one of 20/20, 60F/60F, 20/4, got '15/15'."
    ):
        read("1.07", "15/15")


def test_a_reading_that_no_bath_gives_is_refused():
    with pytest.raises(ChemistryValueError, match=r"is none of a silver nitrate solution"):
        read("1.64")


def test_plates_are_counted_from_none_up():
    with pytest.raises(ChemistryValueError, match=r"Plates since the bath was made must be at least 0"):
        read("1.07", plates=-1)
