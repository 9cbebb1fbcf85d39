"""Amounts go into the rows exactly as they are typed, and are read with no more figures than help."""

from decimal import Decimal

import pytest

from plates.store.amounts import format_amount, small, typed


@pytest.mark.parametrize(
    ("value", "unit", "whole"),
    [("1.5", "mg", 1500), ("0.001", "ul", 1), ("12", "piece", 12)],
    ids=["grams", "microlitre", "pieces"],
)
def test_what_is_typed_becomes_a_whole_number_and_back(value, unit, whole):
    assert small(Decimal(value), unit) == whole
    assert typed(whole, unit) == Decimal(value)


@pytest.mark.parametrize(
    ("value", "unit"), [("0.0005", "mg"), ("1.5", "piece")], ids=["half a mg", "half a piece"]
)
def test_what_is_no_whole_number_is_never_rounded(value, unit):
    with pytest.raises(ValueError, match="is no whole number"):
        small(Decimal(value), unit)


@pytest.mark.parametrize(
    ("value", "unit", "words"),
    [
        (1_500_000, "ul", "1500 mL"),
        (62_500, "ul", "62.5 mL"),
        (285, "mg", "0.285 g"),
        (0, "ul", "0 mL"),
        (7, "piece", "7"),
    ],
    ids=["much", "some", "little", "nothing", "pieces"],
)
def test_an_amount_is_shown_as_it_is_read(value, unit, words):
    assert format_amount(value, unit) == words
