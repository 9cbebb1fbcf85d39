"""Misprints noted in trade-facts s.5, with the exact values worked out there (C)."""

from fractions import Fraction

import pytest

from plates.chemistry.quantities import grams, millilitres
from plates.chemistry.recipes.metric_twins import TWINS, Twin
from plates.chemistry.values import ChemistryValueError, Source


@pytest.mark.parametrize(
    ("twin", "exact", "printed"),
    [(TWINS[0], "199.55", "200"), (TWINS[1], "22.81", "26"), (TWINS[2], "68.4", "60")],
    ids=["hypo", "metabisulphite", "600 grains"],
)
def test_a_metric_twin_is_not_what_stands_beside_it(twin, exact, printed):
    assert round(twin.exact, len(exact.partition(".")[2])) == Fraction(exact)
    assert twin.printed == Fraction(printed)


def test_the_worst_of_them_is_14_per_cent_off():
    assert round(max(twin.off for twin in TWINS), 2) == Fraction("0.14")


def test_a_twin_needs_amounts():
    with pytest.raises(ChemistryValueError, match=r"The amounts printed for salt must be above 0."):
        Twin("salt", grams(0), millilitres(1), grams(1), millilitres(1), Source("a book", "A"))
