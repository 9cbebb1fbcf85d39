"""A recipe written down and read back is the same recipe, to the last exact figure."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plates.chemistry.recipes.catalogue import PRINTED
from plates.chemistry.recipes.scaling import scaled_to
from plates.chemistry.recipes.serialization import amount_from, dump, load, plainly
from plates.chemistry.values import ChemistryValueError
from tests.plates.chemistry.strategies import few


@pytest.mark.parametrize("key", PRINTED)
def test_a_printed_recipe_comes_back_as_it_was(key):
    assert load(dump(PRINTED[key].ingredients)) == PRINTED[key].ingredients


def test_a_recipe_scaled_to_an_odd_volume_comes_back_as_it_was():
    scaled = scaled_to(PRINTED["developer_towler"], 1000)

    assert load(dump(scaled.ingredients)) == scaled.ingredients


@few
@given(st.fractions(min_value=0, max_value=10_000, max_denominator=997))
def test_every_amount_is_read_as_it_was_written(amount):
    assert amount_from(plainly(amount)) == amount


@pytest.mark.parametrize(
    ("amount", "words"),
    [(Fraction(25, 2), "12.5"), (Fraction(1, 3), "1/3"), (Fraction(150), "150"), (Fraction(0), "0")],
    ids=["half", "third", "whole", "nothing"],
)
def test_an_amount_is_written_as_it_is_best_read(amount, words):
    assert plainly(amount) == words


def test_a_comma_is_read_as_a_point():
    assert amount_from("12,5") == Fraction(25, 2)


@pytest.mark.parametrize("words", ["", "twelve", "-1", "1/0", "1e9", "1 2", "9" * 25, "1.2.3", "½"])
def test_what_is_no_amount_is_refused_in_words(words):
    with pytest.raises(ChemistryValueError, match="is no amount: write 12,"):
        amount_from(words)


@pytest.mark.parametrize("rows", [None, "salt", ["salt"], {"name": "salt"}], ids=str)
def test_what_is_no_list_of_lines_is_refused_in_words(rows):
    with pytest.raises(ChemistryValueError, match="must be a list of what goes in"):
        load(rows)


def test_a_line_in_an_unknown_unit_is_refused_in_words():
    with pytest.raises(ChemistryValueError, match="There is no unit 'cup'"):
        load([{"name": "salt", "amount": "1", "unit": "cup"}])
