from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plates.chemistry.hazards.cyanide import Cyanide, CyanideRefused
from plates.chemistry.quantities import grams, quantity
from plates.chemistry.recipes.period_collodions import COLLODIONS
from plates.chemistry.recipes.period_solutions import SOLUTIONS, VARNISHES
from plates.chemistry.recipes.scaling import (
    Ingredient,
    Recipe,
    line,
    scaled_to,
    substances,
    unlisted,
)
from plates.chemistry.values import ChemistryValueError, Source
from tests.plates.chemistry.strategies import few, thousandths

PRINTED = (*COLLODIONS, *SOLUTIONS, *VARNISHES)
WHOLE = [each for each in PRINTED if all(line.quantity or line.makes_up for line in each.ingredients)]
HARMLESS = [each for each in WHOLE if "potassium_cyanide" not in substances([each])]
OWN = Source("the studio's own", "D")


def own(*lines, **more):
    return Recipe("own", "Our developer", "developer", lines or (line("water", 1, "l"),), OWN, **more)


def amounts(recipe):
    return [line.quantity and line.quantity.metric for line in recipe.ingredients]


@few
@given(st.sampled_from(HARMLESS), thousandths(1, 100_000))
def test_a_recipe_scaled_there_and_back_is_the_printed_one(recipe, volume):
    there = scaled_to(recipe, volume)

    assert there.volume == volume
    assert amounts(scaled_to(there, recipe.volume)) == amounts(recipe)


@few
@given(st.sampled_from(HARMLESS), thousandths(1, 5000), thousandths(1, 5000))
def test_two_batches_are_one_batch_of_both_volumes(recipe, one, other):
    parts = zip(amounts(scaled_to(recipe, one)), amounts(scaled_to(recipe, other)), strict=True)

    assert [a and a + b for a, b in parts] == amounts(scaled_to(recipe, one + other))


@few
@given(st.sampled_from(HARMLESS), thousandths(1, 5000))
def test_metric_amounts_are_the_printed_ones_in_other_units(recipe, volume):
    assert amounts(scaled_to(recipe, volume).metric()) == amounts(scaled_to(recipe, volume))


def test_a_range_is_scaled_at_both_ends():
    range_of = scaled_to(own(line("water", 9, "part"), line("alcohol", 1, "part", most=5)), 100).ingredients[
        1
    ]

    assert (range_of.quantity.metric, range_of.most.metric) == (10, 50)


def test_a_printed_volume_counts_before_the_liquids():
    recipe = own(line("syrup", 1, "ml"), Ingredient("water", None, makes_up=True), makes=quantity(2, "l"))

    assert recipe.volume == 2000
    assert scaled_to(recipe, 500).ingredients[0].quantity == quantity(Fraction(1, 4), "ml")


def test_reading_a_recipe_the_other_way_changes_liquids_only():
    recipe = own(line("water", 10, "us_ounce"), line("salt", 10, "grain"), makes=quantity(1, "us_pint"))

    read = recipe.read_as("imperial")

    assert [line.quantity.unit.key for line in read.ingredients] == ["imperial_ounce", "grain"]
    assert read.makes == quantity(1, "imperial_pint")
    assert read.read_as("US") == recipe


def test_a_line_that_was_lost_must_be_filled_in_first():
    recipe = own(line("ether", 1, "l"), Ingredient("alcohol", None))

    with pytest.raises(
        ChemistryValueError, match=r"How much alcohol is not known, so the recipe cannot be scaled"
    ):
        scaled_to(recipe, 100)


def test_what_the_table_of_hazards_does_not_know_is_named():
    assert unlisted(own(line("water", 1, "l", "water"), line("copper sulphate", 1, "g"))) == (
        "copper sulphate",
    )


def test_a_recipe_with_cyanide_is_not_worked_out():
    recipe = own(line("water", 1, "l"), line("poison", 1, "g", "potassium_cyanide"))

    with pytest.raises(CyanideRefused):
        scaled_to(recipe, 100)


def test_switched_on_a_recipe_with_cyanide_is_worked_out():
    recipe = own(line("water", 1, "l"), line("poison", 10, "g", "potassium_cyanide"))

    assert amounts(scaled_to(recipe, 100, cyanide=Cyanide(switched_on=True))) == [100, 1]


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda: Ingredient(" ", grams(1)), r"An ingredient needs a name."),
        (lambda: line("salt", 5, "g", most=4), r"The range of salt must not end below its beginning."),
        (lambda: Recipe("a", "A", "bath", (), OWN), r"The recipe 'A' needs at least one ingredient."),
        (lambda: own(makes=grams(5)), r"The recipe 'Our developer' must make a volume above 0."),
        (lambda: own(line("salt", 5, "g")).volume, r"The recipe 'Our developer' does not say what volume it makes."),
        (lambda: scaled_to(own(), 0), r"The volume in mL must be above 0, got 0."),
    ],
    ids=["name", "range", "empty", "makes", "no volume", "zero"],
)  # fmt: skip
def test_what_cannot_be_a_recipe_is_refused(make, says):
    with pytest.raises(ChemistryValueError, match=says):
        make()
