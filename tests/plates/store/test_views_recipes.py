"""The recipe calculator and recipes of one's own, as the photographer's browser asks for them.

Quantities: trade-facts s.5, R2 and R10 (printed A, worked out C).
"""

import pytest
from django.urls import reverse

from plates.chemistry.recipes.catalogue import PRINTED
from plates.store.models import OwnRecipe, StoreRoom

pytestmark = pytest.mark.django_db

A_LITRE = {"recipe": "bath_wall", "volume": "1000", "unit": "ml", "told": "metric", "ounces": ""}


def calculate(photographer, **changes):
    return photographer.get(reverse("plates:recipes"), A_LITRE | changes)


def words(answer):
    return " ".join(answer.content.decode().split())


def own_fields(**changes):
    """A recipe of one's own: two lines filled in, ten empty."""
    fields = {"name": "Our fixer", "kind": "fixer", "makes": "1000", "notes": "", "kept": "on"}
    fields |= {"line-TOTAL_FORMS": "12", "line-INITIAL_FORMS": "0"}
    fields |= {"line-0-name": "hypo", "line-0-amount": "200", "line-0-unit": "g"}
    fields |= {"line-0-substance": "sodium_thiosulfate", "line-1-name": "water"}
    return fields | changes


@pytest.mark.parametrize(
    ("asked", "taken"),
    [
        ({}, "68.42 g"),
        ({"ounces": "US"}, "65.73 g"),
        ({"recipe": "fixer_hunt"}, "199.55 g"),
        ({"volume": "8", "unit": "imperial_ounce", "told": "imperial"}, "4 apothecaries drachms"),
        (
            {"recipe": "developer_towler", "volume": "4.625", "unit": "us_ounce", "told": "US"},
            "3 US fluid drachms",
        ),
    ],
    ids=["as printed", "US ounces", "fixer", "in old measures", "in US measures"],
)
def test_a_recipe_is_worked_out_as_it_is_printed(photographer, asked, taken):
    assert f"<strong>{taken}</strong>" in words(calculate(photographer, **asked))


def test_every_printed_recipe_is_shown_with_its_source_and_its_cautions(photographer):
    for key in set(PRINTED) - {"fixer_photo_cyanide", "ferrotype_practical_1005"}:
        answer = words(calculate(photographer, recipe=key))

        assert "Before you begin" in answer
        assert PRINTED[key].source.text.partition("'")[0] in answer


def test_misprints_stand_beside_the_recipes_that_they_are_of(photographer):
    answer = words(calculate(photographer, recipe="fixer_hunt"))

    assert "A handbook of the period prints hypo 4 avoirdupois ounces in 20 imperial fluid ounces" in answer
    assert "which is 199.6 g/L, beside a metric amount of 200.0 g/L" in answer


def test_what_has_no_row_in_the_table_of_hazards_is_said_to_be_unknown(photographer):
    answer = words(calculate(photographer, recipe="varnish_henley"))

    assert "<h3>Castor oil</h3><p>No row here: read the supplier’s safety data sheet" in answer


def test_cyanide_is_refused_with_the_way_out(photographer):
    answer = calculate(photographer, recipe="fixer_photo_cyanide")

    assert answer.status_code == 400
    assert "Cyanide is switched off: with any acid it gives off a gas that kills." in words(answer)


def test_cyanide_that_was_switched_on_is_shown_with_its_warning(photographer):
    StoreRoom.objects.create(pk=1, cyanide_on=True)

    answer = calculate(photographer, recipe="fixer_photo_cyanide")

    assert "Cyanide kills by a splash or a breath" in words(answer)


def test_a_recipe_with_a_lost_line_says_what_is_missing(photographer):
    answer = calculate(photographer, recipe="ferrotype_practical_1005")

    assert answer.status_code == 400
    assert "How much alcohol is not known, so the recipe cannot be scaled" in words(answer)


def test_a_recipe_of_ones_own_is_kept_and_calculated(photographer):
    photographer.post(reverse("plates:new_recipe"), own_fields())

    row = OwnRecipe.objects.get()
    assert "<strong>100 g</strong>" in words(calculate(photographer, recipe=f"own-{row.pk}", volume="500"))


def test_a_printed_recipe_begins_one_of_ones_own(photographer):
    answer = photographer.get(reverse("plates:new_recipe"), {"from": "ferrotype_practical_1005"})

    assert 'value="cadmium bromide"' in answer.content.decode()


def test_a_recipe_of_ones_own_is_changed_and_no_longer_offered(photographer):
    photographer.post(reverse("plates:new_recipe"), own_fields())
    row = OwnRecipe.objects.get()
    page = reverse("plates:own_recipe", args=[row.pk])
    assert 'value="hypo"' in photographer.get(page).content.decode()

    photographer.post(page, own_fields(kept="", **{"line-0-amount": "1/4", "line-0-unit": "kg"}))

    row.refresh_from_db()
    assert (row.kept, row.lines[0]["amount"], row.lines[0]["unit"]) == (False, "0.25", "kg")
    assert calculate(photographer, recipe=f"own-{row.pk}").status_code == 400


def test_cyanide_under_another_name_in_a_recipe_of_ones_own_is_refused_like_any(photographer):
    photographer.post(
        reverse("plates:new_recipe"),
        own_fields(**{"line-0-name": "Potassium cyanide", "line-0-substance": "water"}),
    )

    answer = calculate(photographer, recipe=f"own-{OwnRecipe.objects.get().pk}")
    assert "Cyanide is switched off" in words(answer)


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"line-0-amount": "a lot"}, "&#x27;a lot&#x27; is no amount: write 12, 12.5 or 1/2."),
        ({"line-0-unit": ""}, "Choose a unit for this amount."),
        ({"line-0-name": ""}, "Say what this amount is of."),
        ({"line-0-amount": "0"}, "An amount is above nothing"),
        ({"makes": ""}, "does not say what volume it makes"),
        (
            {"line-0-name": "", "line-0-amount": "", "line-0-unit": "", "line-1-name": ""},
            "at least one ingredient",
        ),
        ({"line-TOTAL_FORMS": "x"}, "Please put this right"),
    ],
)
def test_what_makes_no_recipe_is_refused_in_words(photographer, changes, sentence):
    answer = photographer.post(reverse("plates:new_recipe"), own_fields(**changes))

    assert answer.status_code == 400
    assert sentence in words(answer)
    assert not OwnRecipe.objects.exists()


def test_two_recipes_never_have_one_name(photographer):
    photographer.post(reverse("plates:new_recipe"), own_fields())

    answer = photographer.post(reverse("plates:new_recipe"), own_fields())

    assert "Another recipe is called Our fixer." in words(answer)
