"""Printed recipes and the studio's own, and what to take for a volume of one."""

from dataclasses import dataclass
from fractions import Fraction

from plates.chemistry.hazards.cautions import Caution, cautions_for
from plates.chemistry.hazards.classification import Label
from plates.chemistry.hazards.cyanide import FORBIDDEN, Cyanide
from plates.chemistry.hazards.substances import labels_of
from plates.chemistry.quantities import millilitres
from plates.chemistry.recipes.catalogue import PRINTED
from plates.chemistry.recipes.measures import System, amount_of, as_printed
from plates.chemistry.recipes.metric_twins import TWINS, Twin
from plates.chemistry.recipes.scaling import Ingredient, Kind, Recipe, scaled_to, substances, unlisted
from plates.chemistry.recipes.serialization import load
from plates.chemistry.values import Source
from plates.store.models import OwnRecipe

OWN = "own-"


@dataclass(frozen=True, slots=True)
class Taken:
    """One line: what it is called, how it is printed, how much to take."""

    name: str
    printed: str
    take: str


@dataclass(frozen=True, slots=True)
class Calculated:
    """A recipe made in a volume, in the measures asked for, with everything that is to be known beside it."""

    recipe: Recipe
    lines: tuple[Taken, ...]
    cautions: tuple[Caution, ...]
    labels: tuple[Label, ...]
    no_row: tuple[str, ...]
    misprints: tuple[Twin, ...]


def recipes(*, kind: str = "") -> dict[str, Recipe]:
    """All recipes by their references, printed ones first; those of one kind where it is named."""
    own = {f"{OWN}{row.pk}": as_recipe(row) for row in OwnRecipe.objects.filter(kept=True)}
    return {ref: each for ref, each in (PRINTED | own).items() if kind in ("", each.kind)}


def recipe_of(*, ref: str) -> Recipe | None:
    """The recipe of a reference, kept or not; None where there is none."""
    if not ref.startswith(OWN):
        return PRINTED.get(ref)
    number = ref.removeprefix(OWN)
    row = (
        OwnRecipe.objects.filter(pk=int(number)).first() if number.isdecimal() and len(number) < 19 else None
    )
    return as_recipe(row) if row else None


def as_recipe(row: OwnRecipe) -> Recipe:
    """A recipe of the studio's own as the chemistry knows it."""
    kind: Kind = row.kind  # type: ignore[assignment]  # one of Solution, which are the kinds
    return Recipe(
        f"{OWN}{row.pk}",
        row.name,
        kind,
        load(row.lines),
        Source("the studio's own recipe", "D"),
        makes=millilitres(Fraction(row.makes_ul, 1000)) if row.makes_ul else None,
        notes=(row.notes,) if row.notes else (),
    )


def read_as(recipe: Recipe, ounces: str) -> Recipe:
    """The recipe with its fluid measures taken as printed (""), for US or for imperial ones."""
    if ounces == "US":
        return recipe.read_as("US")
    return recipe.read_as("imperial") if ounces == "imperial" else recipe


def calculated(
    *, recipe: Recipe, volume_ml: Fraction, told: System, ounces: str = "", cyanide: Cyanide = FORBIDDEN
) -> Calculated:
    """What to take for so many mL. Raises ChemistryValueError, CyanideRefused."""
    printed = read_as(recipe, ounces)
    scaled = scaled_to(printed, volume_ml, cyanide=cyanide)
    present = substances([scaled])
    return Calculated(
        recipe=scaled,
        lines=tuple(
            _taken(*pair, told) for pair in zip(printed.ingredients, scaled.ingredients, strict=True)
        ),
        cautions=cautions_for(present),
        labels=labels_of(present),
        no_row=unlisted(scaled),
        misprints=TWINS if recipe.kind == "fixer" else (),
    )


def _taken(printed: Ingredient, scaled: Ingredient, told: System) -> Taken:
    return Taken(printed.name, as_printed(printed), amount_of(scaled, told))
