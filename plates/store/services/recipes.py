"""The studio's own recipes: written down, changed, no longer offered. Batches keep what went into them."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from django.db import IntegrityError, transaction
from django.utils.translation import gettext

from plates.chemistry.hazards.cyanide import CYANIDE, names_cyanide
from plates.chemistry.recipes.scaling import Ingredient
from plates.chemistry.recipes.serialization import dump
from plates.chemistry.values import ChemistryValueError
from plates.common.words import translated
from plates.errors import StoreRefused
from plates.store.models import OwnRecipe
from plates.store.selectors.recipes import as_recipe

MOST_ML = 1_000_000


@dataclass(frozen=True, slots=True)
class RecipeDraft:
    """A recipe as the studio writes it down; `makes_ul` where its liquids do not simply add up."""

    name: str
    kind: str
    lines: Sequence[Ingredient]
    makes_ul: int | None = None
    notes: str = ""
    kept: bool = True


@transaction.atomic
def save_recipe(*, told: RecipeDraft, recipe_id: int | None = None) -> OwnRecipe:
    """Write a recipe down, anew or in place of what stood there. StoreRefused where it cannot be made."""
    row = OwnRecipe.objects.select_for_update().get(pk=recipe_id) if recipe_id else OwnRecipe()
    row.name, row.kind, row.makes_ul = told.name, told.kind, told.makes_ul
    row.notes, row.kept, row.lines = told.notes, told.kept, dump(map(_as_what_it_is, told.lines))
    try:
        if as_recipe(row).volume > MOST_ML:
            raise StoreRefused(gettext("A recipe makes a thousand litres at the most."))
        with transaction.atomic():
            row.save()
    except ChemistryValueError as error:
        raise StoreRefused(translated(error)) from error
    except IntegrityError as error:
        raise StoreRefused(_taken(told.name)) from error
    return row


def _as_what_it_is(line: Ingredient) -> Ingredient:
    """Cyanide by any name is the substance that is refused."""
    return replace(line, substance=CYANIDE) if names_cyanide(line.name) else line


def _taken(name: str) -> str:
    return gettext("Another recipe is called %(name)s. Give this one another name.") % {"name": name}
