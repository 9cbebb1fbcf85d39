"""Recipes told in metric or in old measures: which ounce it is, is always said; a trace is never told as nothing.

Amounts: R1 and R2 of trade-facts s.5 (worked out there, C) and the sizes of the units, NIST Handbook 44 (A).
"""

import pytest

from plates.chemistry.quantities import quantity
from plates.chemistry.recipes.catalogue import PRINTED
from plates.chemistry.recipes.measures import amount_of, amount_words, as_printed
from plates.chemistry.recipes.scaling import scaled_to


def lines(key, volume_ml, system, tell=amount_of):
    scaled = scaled_to(PRINTED[key], volume_ml)
    return [tell(line, system) for line in scaled.ingredients]


def test_a_bath_of_a_litre_is_told_in_grams_and_millilitres():
    # R2: 68.418 g of silver nitrate and 0.285 g of iodide to the litre by the imperial ounce.
    assert lines("bath_wall", 1000, "metric") == ["68.42 g", "0.29 g", "1000 mL"]


def test_a_bath_is_told_again_in_the_measures_that_it_is_printed_in():
    printed = PRINTED["bath_wall"].volume

    assert lines("bath_wall", printed, "imperial") == [
        "4 apothecaries drachms",
        "1 grain",
        "8 imperial fluid ounces",
    ]


@pytest.mark.parametrize(("system", "said"), [("US", "US"), ("imperial", "imperial")])
def test_which_ounce_it_is_is_always_said(system, said):
    told_lines = lines("developer_towler", 1000, system)

    assert all(f"{said} fluid" in words for words in told_lines[1:])


def test_a_trace_is_never_told_as_nothing():
    assert amount_words(quantity(1, "mg"), "US") == "0.015 grains"


def test_a_range_is_told_with_both_ends():
    assert lines("developer_wilkinson", 85, "metric")[-1] == "1 mL to 5 mL"


def test_water_up_to_the_mark_has_no_amount():
    assert lines("fixer_hunt", 1000, "metric")[-1] == "up to the mark"


def test_a_line_that_is_lost_is_said_to_be_unknown():
    assert as_printed(PRINTED["ferrotype_practical_1005"].ingredients[1]) == "not known"


def test_an_amount_is_shown_as_it_is_printed():
    assert as_printed(PRINTED["bath_wall"].ingredients[0]) == "240 grains"
