"""Wordings as public copies of CLP, annex III, and of the UN GHS, annex 3, print them (A/B)."""

from fractions import Fraction

import pytest

from plates.chemistry.hazards.classification import SHEET_FIRST, Classification, Substance, label
from plates.chemistry.hazards.statements import STATEMENTS, statement
from plates.chemistry.hazards.substances import SUBSTANCES
from plates.chemistry.values import ChemistryValueError, Source

SHEET = Source("a sheet", "B")


def classed(statements=("H315",), pictograms=("GHS07",), signal="Warning", at=0):
    return Classification(statements, pictograms, signal, Fraction(at))


@pytest.mark.parametrize(
    ("code", "sentence"),
    [
        ("H224", "Extremely flammable liquid and vapour."),
        ("H272", "May intensify fire; oxidiser."),
        ("H304", "May be fatal if swallowed and enters airways."),
        ("H314", "Causes severe skin burns and eye damage."),
        ("H336", "May cause drowsiness or dizziness."),
        ("H410", "Very toxic to aquatic life with long lasting effects."),
        ("EUH019", "May form explosive peroxides."),
        ("EUH032", "Contact with acids liberates very toxic gas."),
        ("EUH066", "Repeated exposure may cause skin dryness or cracking."),
        ("EUH071", "Corrosive to the respiratory tract."),
    ],
)
def test_a_statement_is_worded_as_in_the_annex(code, sentence):
    assert statement(code) == sentence


def test_what_is_harmed_is_named_where_the_table_names_it():
    statements = dict(label(SUBSTANCES["ammonium_bromide"]).statements)

    assert statements["H372"] == "Causes damage to the nervous system through prolonged or repeated exposure."


def test_no_sentence_shows_a_gap_to_fill():
    assert [code for code in STATEMENTS if "<" in statement(code)] == []


def test_a_label_says_where_it_is_from_and_what_overrides_it():
    shown = label(SUBSTANCES["ethanol"])

    assert shown.overridden_by == SHEET_FIRST == "The supplier's safety data sheet overrides this."
    assert shown.suppliers_add == (("H319", "Causes serious eye irritation."),)
    assert "ATP 17" in shown.source.text


def test_a_label_is_that_of_the_strength_in_the_bottle():
    assert label(SUBSTANCES["acetic_acid"], 12).signal == "Warning"
    assert label(SUBSTANCES["acetic_acid"]).signal == "Danger"


@pytest.mark.parametrize("strength", [0, 101])
def test_a_strength_that_there_is_not_is_refused(strength):
    with pytest.raises(ChemistryValueError, match=r"The strength in per cent must be"):
        label(SUBSTANCES["acetic_acid"], strength)


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda: classed(("H999",)), r"No hazard code is called H999."),
        (lambda: classed(pictograms=("GHS12",)), r"No hazard code is called GHS12."),
        (lambda: classed(signal=""), r"A label has both a pictogram and a signal word, or neither."),
        (lambda: Substance("a", "A", "1", "", (), SHEET), r"The classes of A must go from the strongest down."),
        (
            lambda: Substance("a", "A", "1", "", (classed(at=5), classed(at=9)), SHEET),
            r"The classes of A must go from the strongest down.",
        ),
        (lambda: Substance("a", "A", "1", "", (classed(),), SHEET, ("H9",)), r"No hazard code is called H9."),
    ],
    ids=["statement", "pictogram", "signal", "no class", "order", "suppliers"],
)  # fmt: skip
def test_what_cannot_be_a_label_is_refused(make, says):
    with pytest.raises(ChemistryValueError, match=says):
        make()
