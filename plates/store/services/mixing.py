"""A batch is mixed or bought: written down with what went in, which is taken from the shelves."""

from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from fractions import Fraction

from django.contrib.auth.models import User
from django.db import IntegrityError, transaction
from django.utils.translation import gettext as _

from plates.chemistry.recipes.scaling import Ingredient, Recipe, scaled_to
from plates.chemistry.recipes.serialization import dump, metric_amount
from plates.chemistry.values import ChemistryValueError, nearest
from plates.common.words import translated
from plates.errors import StoreRefused
from plates.store.models import Batch, Supply, SupplyEvent
from plates.store.selectors import recipes as selector
from plates.store.selectors.supplies import figures

SILVER = "silver_nitrate"
DENSEST = 1  # mg in a µL: a kilogram in a litre, which no bath holds
MOST_SMALL = 10**12  # mg or µL: a thousand tons


@dataclass(frozen=True, slots=True)
class Mixing:
    """What is to be written down. Without a recipe it was bought or mixed otherwise; `ounces` as the recipe is read.

    `silver_mg` is what a bath without a recipe holds, if that is known. `draw`: take what goes in from the shelves.
    """

    kind: str
    label: str
    made_ul: int
    mixed_on: date
    ripe_from: date
    best_before: date | None = None
    recipe: str = ""
    ounces: str = ""
    silver_mg: int | None = None
    note: str = ""
    draw: bool = False


@transaction.atomic
def mix(*, mixing: Mixing, operator: User | None, now: datetime) -> Batch:
    """Write a batch down. StoreRefused where its label is taken or its recipe cannot, or may not, be made."""
    scaled = _scaled(mixing)
    lines = scaled.ingredients if scaled else ()
    silver = _silver(mixing, lines)
    if silver is not None and silver > mixing.made_ul * DENSEST:
        raise StoreRefused(_("So much silver nitrate does not dissolve in that volume: look at the amounts."))
    batch = _written_down(
        Batch(
            kind=mixing.kind,
            label=mixing.label,
            recipe_key=mixing.recipe,
            recipe_name=scaled.name if scaled else "",
            contents=dump(lines),
            made_ul=mixing.made_ul,
            silver_mg=silver,
            mixed_at=_moment(mixing.mixed_on, now),
            mixed_on=mixing.mixed_on,
            mixed_by=operator,
            ripe_from=mixing.ripe_from,
            best_before=mixing.best_before,
            note=mixing.note,
        )
    )
    if mixing.draw:
        _draw(batch, lines, operator, now)
    return batch


def _scaled(mixing: Mixing) -> Recipe | None:
    if not mixing.recipe:
        return None
    recipe = selector.recipe_of(ref=mixing.recipe)
    if recipe is None or recipe.kind != mixing.kind:
        raise StoreRefused(_("There is no such recipe for that kind of solution. Choose another one."))
    read = selector.read_as(recipe, mixing.ounces)
    try:
        return scaled_to(read, Fraction(mixing.made_ul, 1000), cyanide=figures().cyanide())
    except ChemistryValueError as error:
        raise StoreRefused(translated(error)) from error


def _silver(mixing: Mixing, lines: tuple[Ingredient, ...]) -> int | None:
    """Milligrams of silver nitrate in a bath when it was made."""
    if mixing.kind != "bath" or not lines:
        return mixing.silver_mg
    grams = sum(
        (metric_amount(line, "mass") for line in lines if line.substance == SILVER),
        Fraction(0),
    )
    return int(nearest(grams * 1000, Fraction(1))) or mixing.silver_mg


def _moment(mixed_on: date, now: datetime) -> datetime:
    """Now, or the noon of an earlier day: a batch may be written down afterwards."""
    return min(now, datetime.combine(mixed_on, time(12), tzinfo=UTC))


def _written_down(batch: Batch) -> Batch:
    try:
        with transaction.atomic():
            batch.save(force_insert=True)
    except IntegrityError as error:
        if Batch.objects.filter(label=batch.label).exists():
            taken = _("Another batch is called %(label)s. Put another label on this one.")
            raise StoreRefused(taken % {"label": batch.label}) from error
        raise
    return batch


def _draw(batch: Batch, lines: tuple[Ingredient, ...], operator: User | None, now: datetime) -> None:
    """Take each line from the one supply that holds its substance in the same measure; what has none is left out."""
    for line in lines:
        taken = _small(line)
        shelf = (
            list(Supply.objects.filter(substance=line.substance, unit=taken[1], kept=True)[:2])
            if taken
            else []
        )
        if taken and len(shelf) == 1:
            SupplyEvent.objects.create(
                supply=shelf[0],
                kind=SupplyEvent.Kind.USED,
                amount=taken[0],
                batch=batch,
                at=now,
                on=batch.mixed_on,
                operator=operator,
            )


def _small(line: Ingredient) -> tuple[int, str] | None:
    """Milligrams or microlitres of a line, and which; None for what is not kept or not measured."""
    if not line.substance or line.quantity is None:
        return None
    unit = Supply.Unit.MILLIGRAM if line.quantity.unit.measures == "mass" else Supply.Unit.MICROLITRE
    amount = int(nearest(line.quantity.metric * 1000, Fraction(1)))
    if amount > MOST_SMALL:
        raise StoreRefused(
            _("So much of %(name)s cannot be weighed: look at the recipe.") % {"name": line.name}
        )
    return (amount, unit) if amount else None
