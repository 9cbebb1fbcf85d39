"""Which numbers of a series are missing, held against the plain difference of two sets."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookings.money import missing


@pytest.mark.parametrize(
    ("numbers", "last", "gaps"),
    [
        pytest.param([1, 2, 3], 3, (), id="none"),
        pytest.param([], 0, (), id="an empty series"),
        pytest.param([2, 3], 3, ((1, 1),), id="the first"),
        pytest.param([1, 2], 4, ((3, 4),), id="the last two"),
        pytest.param([1, 5, 3], 6, ((2, 2), (4, 4), (6, 6)), id="every other"),
        pytest.param([], 2_000_000_000, ((1, 2_000_000_000),), id="a counter gone astray"),
    ],
)
def test_missing_numbers_are_told_in_runs(numbers, last, gaps):
    assert missing(numbers, last) == gaps


@given(st.sets(st.integers(-2, 30)), st.integers(0, 25))
def test_they_are_those_that_no_row_has(numbers, last):
    told = {number for first, end in missing(numbers, last) for number in range(first, end + 1)}

    assert told == set(range(1, last + 1)) - numbers
