"""Held against trade-facts s.4 (Handbook 44) and the units of SciPy, a reference library (NIST SP 811)."""

from fractions import Fraction

import pytest
import scipy.constants
from hypothesis import given
from hypothesis import strategies as st

from plates.chemistry.quantities import Quantity
from plates.chemistry.units import IMPERIAL_OUNCE, UNITS, US_OUNCE, Unit, read_in, unit
from plates.chemistry.values import ChemistryValueError
from tests.plates.chemistry.facts import UNITS as PRINTED
from tests.plates.chemistry.strategies import few, thousandths

MASSES = [each for each in UNITS.values() if each.measures == "mass"]
VOLUMES = [each for each in UNITS.values() if each.measures == "volume"]


@pytest.mark.parametrize(("sure", "key", "size"), PRINTED, ids=[f"{key}-{sure}" for sure, key, _ in PRINTED])
def test_a_unit_is_exactly_as_large_as_printed(sure, key, size):
    assert UNITS[key].size == Fraction(size)


@pytest.mark.parametrize(
    ("key", "reference"),
    [
        ("grain", scipy.constants.grain * 1000),
        ("avoirdupois_ounce", scipy.constants.oz * 1000),
        ("apothecaries_ounce", scipy.constants.troy_ounce * 1000),
        ("pound", scipy.constants.lb * 1000),
        ("us_ounce", scipy.constants.fluid_ounce_US * 1e6),
        ("imperial_ounce", scipy.constants.fluid_ounce_imp * 1e6),
        ("us_pint", scipy.constants.gallon_US * 1e6 / 8),
        ("imperial_pint", scipy.constants.gallon_imp * 1e6 / 8),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_a_unit_is_as_large_as_in_the_reference_library(key, reference):
    assert float(UNITS[key].size) == pytest.approx(reference, rel=1e-12)


@pytest.mark.parametrize(("system", "ounces"), [("us", 16), ("imperial", 20)])
def test_a_fluid_ounce_has_8_drachms_and_480_minims(system, ounces):
    # NIST Handbook 44, appendix C (A).
    ounce = UNITS[f"{system}_ounce"].size

    assert UNITS[f"{system}_drachm"].size * 8 == ounce
    assert UNITS[f"{system}_minim"].size * 480 == ounce
    assert UNITS[f"{system}_pint"].size == ounces * ounce


def test_the_two_fluid_ounces_are_4_per_cent_apart():
    # trade-facts s.4 (A).
    assert round(US_OUNCE.size / IMPERIAL_OUNCE.size, 3) == Fraction("1.041")


def test_every_name_of_an_ounce_says_which_ounce_it_is():
    names = [each.name for each in UNITS.values() if "ounce" in each.name]

    assert len(names) == 4
    assert all(name.startswith(("US ", "imperial ", "avoirdupois ", "apothecaries ")) for name in names)


@few
@given(thousandths(0, 1_000_000), st.sampled_from(MASSES), st.sampled_from(MASSES))
def test_masses_come_back_exactly(amount, one, other):
    assert Quantity(amount, one).to(other).to(one).amount == amount


@few
@given(thousandths(0, 1_000_000), st.sampled_from(VOLUMES), st.sampled_from(VOLUMES))
def test_volumes_come_back_exactly(amount, one, other):
    assert Quantity(amount, one).to(other).to(one).amount == amount


@pytest.mark.parametrize(
    ("one", "other"), [("avoirdupois_ounce", "us_ounce"), ("drachm", "us_drachm"), ("ml", "g")]
)
def test_a_mass_is_never_made_a_volume(one, other):
    with pytest.raises(
        ChemistryValueError, match=r" is a (mass|volume), .* a (mass|volume): weigh or measure it."
    ):
        Quantity(Fraction(1), UNITS[one]).to(UNITS[other])


def test_a_unit_that_is_not_there_is_refused():
    with pytest.raises(ChemistryValueError, match=r"There is no unit 'dram': one of mg, g, kg"):
        unit("dram")


def test_a_unit_must_have_a_size():
    with pytest.raises(ChemistryValueError, match=r"The size of nothing must be above 0"):
        Unit("nothing", "nothing", "nothings", "mass", "metric", Fraction(0))


def test_fluid_units_are_read_in_the_other_measure_and_weights_are_not():
    assert read_in(UNITS["us_minim"], "imperial") == UNITS["imperial_minim"]
    assert read_in(UNITS["imperial_pint"], "US") == UNITS["us_pint"]
    assert read_in(UNITS["grain"], "US") == UNITS["grain"]
