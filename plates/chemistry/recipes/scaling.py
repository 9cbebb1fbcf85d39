"""A recipe as it is printed, and the same recipe made in another volume.

Liquids are taken to add up and solids to take no room, as the old books do; ounces of solids are avoirdupois and
drachms of solids apothecaries, ounces of liquids fluid. Which fluid ounce, US or imperial, the recipe says, and it may
be read the other way. What is scaled stays exact; it is rounded where it is told.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from plates.chemistry.hazards.cyanide import FORBIDDEN, Cyanide, refuse_cyanide
from plates.chemistry.quantities import Quantity, millilitres, quantity
from plates.chemistry.sentences import Sentence
from plates.chemistry.units import GRAM, MILLILITRE, read_in
from plates.chemistry.values import ChemistryValueError, Exact, Source, exact

Kind = Literal["collodion", "bath", "developer", "fixer", "varnish"]


@dataclass(frozen=True, slots=True)
class Ingredient:
    """One line of a recipe; `most` where a range is printed; `makes_up` for water added up to the mark, which needs no
    amount. `substance` is its key in the table of hazards ("" where that has no row, "water" for water)."""

    name: str
    quantity: Quantity | None
    most: Quantity | None = None
    makes_up: bool = False
    substance: str = ""

    def __post_init__(self) -> None:
        if not self.name.strip():
            raise ChemistryValueError("An ingredient needs a name.")
        if self.most and (
            self.quantity is None or self.most.to(self.quantity.unit).amount < self.quantity.amount
        ):
            raise ChemistryValueError(f"The range of {self.name} must not end below its beginning.")

    def times(self, factor: Fraction) -> "Ingredient":
        return replace(
            self,
            quantity=self.quantity and self.quantity.times(factor),
            most=self.most and self.most.times(factor),
        )

    def metric(self) -> "Ingredient":
        """The same line in grams or millilitres."""
        return replace(self, quantity=_metric(self.quantity), most=_metric(self.most))


def line(name: str, amount: Exact, unit: str, substance: str = "", most: Exact | None = None) -> Ingredient:
    """So much of something in the unit with this key, up to `most` of it. Raises ChemistryValueError."""
    return Ingredient(
        name, quantity(amount, unit), None if most is None else quantity(most, unit), substance=substance
    )


@dataclass(frozen=True, slots=True)
class Recipe:
    """A recipe with where it is printed; `makes` where the volume is printed, otherwise its liquids added up.

    Raises ChemistryValueError.
    """

    key: str
    name: str
    kind: Kind
    ingredients: tuple[Ingredient, ...]
    source: Source
    makes: Quantity | None = None
    notes: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if not self.ingredients:
            raise ChemistryValueError(f"The recipe {self.name!r} needs at least one ingredient.")
        if self.makes and (self.makes.unit.measures != "volume" or not self.makes.amount):
            raise ChemistryValueError(f"The recipe {self.name!r} must make a volume above 0.")

    @property
    def volume(self) -> Fraction:
        """mL that it makes, a range counted at its beginning. Raises ChemistryValueError while a line is missing."""
        lacking = [line.name for line in self.ingredients if line.quantity is None and not line.makes_up]
        if lacking:
            raise ChemistryValueError(
                Sentence(
                    "How much {lacking} is not known, so the recipe cannot be scaled: fill it in first.",
                    lacking=", ".join(lacking),
                )
            )
        if self.makes:
            return self.makes.metric
        liquids = [line.quantity for line in self.ingredients if line.quantity]
        volume = sum((each.metric for each in liquids if each.unit.measures == "volume"), Fraction(0))
        if not volume:
            raise ChemistryValueError(
                Sentence("The recipe {name} does not say what volume it makes.", name=repr(self.name))
            )
        return volume

    def read_as(self, system: Literal["US", "imperial"]) -> "Recipe":
        """The same words, its fluid measures taken for US or for imperial ones."""
        lines = tuple(
            replace(line, quantity=_read(line.quantity, system), most=_read(line.most, system))
            for line in self.ingredients
        )
        return replace(self, ingredients=lines, makes=_read(self.makes, system))

    def metric(self) -> "Recipe":
        """All lines in grams and millilitres."""
        return replace(
            self, ingredients=tuple(line.metric() for line in self.ingredients), makes=_metric(self.makes)
        )


def scaled_to(recipe: Recipe, volume_ml: Exact, *, cyanide: Cyanide = FORBIDDEN) -> Recipe:
    """The recipe made in so many mL, in the units it is printed in. Raises ChemistryValueError, CyanideRefused."""
    refuse_cyanide((line.substance for line in recipe.ingredients), cyanide)
    wanted = exact("The volume in mL", volume_ml, above=0)
    return _times(recipe, wanted / recipe.volume)


def substances(recipes: Iterable[Recipe]) -> frozenset[str]:
    """The keys, in the table of hazards, of all that these recipes take."""
    return frozenset(line.substance for each in recipes for line in each.ingredients if line.substance)


def unlisted(recipe: Recipe) -> tuple[str, ...]:
    """What the recipe takes that the table of hazards has no row for: not harmless, only not looked up."""
    return tuple(line.name for line in recipe.ingredients if not line.substance)


def _times(recipe: Recipe, factor: Fraction) -> Recipe:
    made = recipe.makes or millilitres(recipe.volume)
    lines = tuple(line.times(factor) for line in recipe.ingredients)
    return replace(recipe, ingredients=lines, makes=made.times(factor))


def _metric(each: Quantity | None) -> Quantity | None:
    return each and each.to(GRAM if each.unit.measures == "mass" else MILLILITRE)


def _read(each: Quantity | None, system: Literal["US", "imperial"]) -> Quantity | None:
    return each and Quantity(each.amount, read_in(each.unit, system))
