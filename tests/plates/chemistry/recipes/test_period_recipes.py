"""The printed recipes, held against the amounts worked out for them in trade-facts s.5 (printed A or B, worked out C).

Each line: the recipe, its number there, how it is read, what it is made to, and grams or millilitres of each line.
"""

from dataclasses import replace
from fractions import Fraction

import pytest

from plates.chemistry.hazards.cyanide import Cyanide
from plates.chemistry.hazards.substances import SUBSTANCES
from plates.chemistry.quantities import quantity
from plates.chemistry.recipes.period_collodions import COLLODIONS
from plates.chemistry.recipes.period_solutions import SOLUTIONS, VARNISHES
from plates.chemistry.recipes.scaling import scaled_to

RECIPES = {each.key: each for each in (*COLLODIONS, *SOLUTIONS, *VARNISHES)}

AS_PRINTED = (
    ("R1", "developer_towler", "US", "11.664 118.294 11.090 7.393"),
    ("R8", "developer_photo_double", "imperial", "9.720 8.879 0.972 28.41 255.72"),
    ("R12", "varnish_henley", "US", "28.350 14.175 5.545 473.18"),
)
TO_A_LITRE = (
    ("R2", "bath_wall", "imperial", "68.418 0.285 1000"),
    ("R2", "bath_wall", "US", "65.733 0.274 1000"),
    ("R3", "iodised_estabrooke_29", "US", "10.956 500 250 250 6.573 3.287 2.191"),
    ("R3", "iodised_estabrooke_29", "imperial", "11.403 500 250 250 6.842 3.421 2.281"),
    ("R5", "ferrotype_estabrooke_16", "US", "500 500 10.956 8.764 4.382 2.191 2.191"),
    ("R6", "metric_fritz", "US", "500 500 20 7.5 7.5 4 0.5"),
    ("R7", "developer_photo_iron", "imperial", "114.94 45.98 34.48 804.60"),
    ("R7", "developer_photo_iron", "US", "114.94 45.98 34.48 804.60"),
    ("R10", "fixer_hunt", "imperial", "199.55 -"),
)


# Made with a litre of one ingredient.
def agrees(recipe, printed):
    """Whether every line rounds to what is printed, in the places in which it is printed."""
    wanted = printed.split()
    assert len(recipe.ingredients) == len(wanted)
    return [
        line.name
        for line, amount in zip(recipe.metric().ingredients, wanted, strict=True)
        if (line.quantity is None) != (amount == "-")
        or (line.quantity and not rounds_to(line.quantity.metric, amount))
    ] == []


def rounds_to(value, printed):
    places = len(printed.partition(".")[2])
    return abs(value - Fraction(printed)) <= Fraction(51, 100) / 10**places


@pytest.mark.parametrize(
    ("row", "key", "system", "wanted"), AS_PRINTED, ids=[f"{row[0]}-{row[2]}" for row in AS_PRINTED]
)
def test_the_printed_amounts_in_grams_and_millilitres(row, key, system, wanted):
    assert agrees(RECIPES[key].read_as(system), wanted)


@pytest.mark.parametrize(
    ("row", "key", "system", "wanted"), TO_A_LITRE, ids=[f"{row[0]}-{row[2]}" for row in TO_A_LITRE]
)
def test_a_litre_of_a_printed_recipe(row, key, system, wanted):
    assert agrees(scaled_to(RECIPES[key].read_as(system), 1000), wanted)


@pytest.mark.parametrize(
    ("key", "grains"),
    # R3, R4 and R14 in grains to the ounce, cotton first (C).
    [
        ("iodised_estabrooke_29", "5 3 1.5 1"),
        ("iodised_estabrooke_27", "5 3 2 1.5"),
        ("ferrotype_practical_1005", "5 2.5 2 3"),
    ],
    ids=["R3", "R4", "R14"],
)
def test_the_collodions_in_grains_to_the_ounce(key, grains):
    recipe = RECIPES[key]
    if key == "ferrotype_practical_1005":
        recipe = replace(
            recipe,
            ingredients=tuple(
                replace(line, quantity=quantity(20, "us_ounce")) if line.name == "alcohol" else line
                for line in recipe.ingredients
            ),
        )
    ounce = quantity(1, "us_ounce").metric

    solids = [
        line.quantity
        for line in scaled_to(recipe, ounce).ingredients
        if line.quantity.unit.measures == "mass"
    ]

    assert [each.amount for each in solids] == [Fraction(each) for each in grains.split()]


def test_halving_half_a_gallon_halves_every_line():
    # R4: scaled to 32 ounces, it halves exactly.
    recipe = RECIPES["iodised_estabrooke_27"]

    halved = scaled_to(recipe, quantity(32, "us_ounce").metric)

    assert [line.quantity.amount for line in halved.ingredients] == [16, 16, 160, 96, 64, 48]


def test_the_lost_line_of_a_recipe_is_not_made_up():
    # R14 (A, incomplete): the alcohol is lost in the e-text.
    assert [line.name for line in RECIPES["ferrotype_practical_1005"].ingredients if not line.quantity] == [
        "alcohol"
    ]


def test_a_recipe_in_parts_keeps_its_range():
    # R9: 85 to 89 parts.
    recipe = RECIPES["developer_wilkinson"]
    alcohol = recipe.ingredients[-1]

    assert recipe.volume == 85
    assert recipe.volume - alcohol.quantity.metric + alcohol.most.metric == 89


def test_the_old_fixer_is_10_per_cent_of_cyanide():
    # R11 (A): shown as history, worked out only where cyanide is switched on.
    fixer = scaled_to(RECIPES["fixer_photo_cyanide"], 1000, cyanide=Cyanide(switched_on=True))

    assert fixer.ingredients[0].quantity.metric == 100
    assert fixer.notes


@pytest.mark.parametrize("key", sorted(RECIPES))
def test_a_printed_recipe_says_where_it_is_printed_and_knows_its_hazards(key):
    recipe = RECIPES[key]

    assert recipe.source.confidence in "AB"
    assert {line.substance for line in recipe.ingredients} <= {"", "water", *SUBSTANCES}


def test_every_numbered_recipe_of_the_facts_is_there():
    # R1 to R14; R6 has a collodion and a developer, its bath is 1:10 by Fritz and needs no recipe.
    assert len(RECIPES) == 15
