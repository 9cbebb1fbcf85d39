from decimal import Decimal
from fractions import Fraction

import pytest

from plates.chemistry.values import ChemistryValueError, Source, exact, figures, nearest


@pytest.mark.parametrize("value", [0.1, True, "1", None], ids=repr)
def test_only_exact_numbers_are_taken(value):
    with pytest.raises(ChemistryValueError, match=r"The dose must be an exact number, got"):
        exact("The dose", value)


@pytest.mark.parametrize("value", ["NaN", "Infinity"])
def test_what_is_no_number_is_refused(value):
    with pytest.raises(ChemistryValueError, match=f"The dose must be a number, got {value}."):
        exact("The dose", Decimal(value))


@pytest.mark.parametrize(
    ("bounds", "says"),
    [
        ({"above": 3}, "The dose must be above 3, got 3."),
        ({"least": 4}, "The dose must be at least 4, got 3."),
        ({"most": 2}, "The dose must be at most 2, got 3."),
    ],
    ids=["above", "least", "most"],
)
def test_a_value_out_of_bounds_is_refused_with_the_bound(bounds, says):
    with pytest.raises(ChemistryValueError, match=says):
        exact("The dose", 3, **bounds)


def test_bounds_belong_to_what_is_allowed_where_they_say_so():
    assert exact("The dose", Decimal("0.5"), least=Decimal("0.5"), most=Decimal("0.5")) == Fraction(1, 2)


@pytest.mark.parametrize(
    ("value", "places", "told"),
    [("2.005", 2, "2.01"), ("0.04", 1, "0.0"), ("99.95", 1, "100.0"), ("7.5", 0, "8"), ("0", 3, "0.000")],
)
def test_figures_are_rounded_half_up(value, places, told):
    assert figures(Fraction(value), places) == told


def test_the_nearest_multiple_of_a_step_takes_halves_upward():
    assert nearest(Fraction("0.25"), Fraction("0.1")) == Fraction("0.3")


def test_a_source_says_where_and_how_sure():
    with pytest.raises(ChemistryValueError, match=r"A source needs words"):
        Source(" ", "A")
    with pytest.raises(ChemistryValueError, match=r"A source is sure to one of A, B, C, D, E, got 'F'."):
        Source("a book", "F")
