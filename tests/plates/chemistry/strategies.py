"""Exact numbers to try: thousandths, drawn as whole numbers because Hypothesis is slow to draw fractions."""

from fractions import Fraction

from hypothesis import strategies as st


def thousandths(least, most):
    return st.integers(least * 1000, most * 1000).map(lambda number: Fraction(number, 1000))
