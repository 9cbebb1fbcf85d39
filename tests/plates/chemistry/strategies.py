"""Exact numbers to try: thousandths, drawn as whole numbers because Hypothesis is slow to draw fractions."""

from fractions import Fraction

from hypothesis import settings
from hypothesis import strategies as st

# What is exact holds for any numbers or for hardly one: a few are enough.
few = settings(max_examples=40)


def thousandths(least, most):
    return st.integers(least * 1000, most * 1000).map(lambda number: Fraction(number, 1000))


def rising(least, most):
    """Two numbers, the lower first."""
    return st.tuples(thousandths(least, most), thousandths(least, most)).map(sorted)
