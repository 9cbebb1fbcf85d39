"""Held against SciPy's negative binomial, and one case that can be counted by hand."""

import pytest
from scipy.stats import nbinom

from plates.chemistry.stock.spares import spares
from plates.chemistry.values import ChemistryValueError

CASES = [(1, 15, 90), (10, 15, 90), (38, 15, 90), (38, 15, 99), (200, 5, 95), (25, 60, 50), (3, 95, 90)]


@pytest.mark.parametrize("case", CASES, ids=lambda case: "-".join(map(str, case)))
def test_the_spares_are_the_quantile_of_the_negative_binomial(case):
    promised, spoilt, sure = case

    assert spares(*case) == nbinom.ppf(sure / 100, promised, 1 - spoilt / 100)


def test_one_plate_of_two_spoilt_needs_three_spares_to_be_sure_to_nine_in_ten():
    # By hand: good at once 1/2, after one more 3/4, after two 7/8, after three 15/16.
    assert spares(1, 50, 90) == 3


def test_exactly_reached_is_enough():
    # By hand: 1/2 + 1/4 is 75 in a hundred, and no more is asked for.
    assert spares(1, 50, 75) == 1


@pytest.mark.parametrize(("promised", "spoilt"), [(0, 15), (40, 0)], ids=["no plates", "none spoilt"])
def test_nothing_is_spare_where_nothing_is_spoilt(promised, spoilt):
    assert spares(promised, spoilt, 99) == 0


def test_a_chance_that_is_none_is_refused():
    with pytest.raises(ChemistryValueError, match="Plates spoilt in a hundred must be at most 95"):
        spares(1, 96, 90)
