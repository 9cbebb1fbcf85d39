"""Hazards in German are in the words of the law: Regulation (EC) 1272/2008, Annex III, as the Commission's customs
laboratories and a university print it in public (A); what they did not show is from memory (E)."""

import pytest
from django.utils import translation

from plates.chemistry.hazards.statements import STATEMENTS, statement
from plates.common.words import translated

READ = {
    "H201": "Explosiv, Gefahr der Massenexplosion.",
    "H224": "Flüssigkeit und Dampf extrem entzündbar.",
    "H225": "Flüssigkeit und Dampf leicht entzündbar.",
    "H226": "Flüssigkeit und Dampf entzündbar.",
    "H272": "Kann Brand verstärken; Oxidationsmittel.",
    "H290": "Kann gegenüber Metallen korrosiv sein.",
    "H300": "Lebensgefahr bei Verschlucken.",
    "H301": "Giftig bei Verschlucken.",
    "H302": "Gesundheitsschädlich bei Verschlucken.",
    "H304": "Kann bei Verschlucken und Eindringen in die Atemwege tödlich sein.",
    "H310": "Lebensgefahr bei Hautkontakt.",
    "H311": "Giftig bei Hautkontakt.",
    "H312": "Gesundheitsschädlich bei Hautkontakt.",
    "H314": "Verursacht schwere Verätzungen der Haut und schwere Augenschäden.",
    "H315": "Verursacht Hautreizungen.",
    "H317": "Kann allergische Hautreaktionen verursachen.",
    "H319": "Verursacht schwere Augenreizung.",
    "H330": "Lebensgefahr bei Einatmen.",
    "EUH066": "Wiederholter Kontakt kann zu spröder oder rissiger Haut führen.",
}


@pytest.mark.parametrize("code", READ)
def test_a_statement_is_said_as_the_annex_has_it(code):
    with translation.override("de"):
        assert translated(statement(code)) == READ[code]


@pytest.mark.parametrize(
    ("organs", "sentence"),
    [
        ("organs", "Schädigt die Organe bei längerer oder wiederholter Exposition."),
        ("the thyroid", "Schädigt die Schilddrüse bei längerer oder wiederholter Exposition."),
    ],
)
def test_a_statement_names_the_organs_in_the_same_language(organs, sentence):
    with translation.override("de"):
        assert translated(statement("H372", organs)) == sentence


def test_in_english_every_statement_stays_as_it_is_printed():
    with translation.override("en-gb"):
        assert {code: translated(statement(code)) for code in STATEMENTS} == {
            code: printed.replace("{organs}", "organs") for code, printed in STATEMENTS.items()
        }
