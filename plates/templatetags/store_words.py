"""How amounts and standings of the store room are written."""

from fractions import Fraction

from django import template
from django.utils.translation import gettext_lazy as _

from plates.chemistry.bath.strength import Strength
from plates.chemistry.recipes.measures import told_line
from plates.chemistry.recipes.scaling import Ingredient
from plates.chemistry.values import figures
from plates.common.words import said
from plates.store.amounts import shown
from plates.store.models import Solution

register = template.Library()
register.filter(said)

STANDINGS = {
    "ripening": _("Ripening"),
    "ready": _("Ready"),
    "past": _("Past its best"),
    "ended": _("No more"),
}


@register.filter
def amount(value: int | Fraction, unit: str) -> str:
    """A whole number of mg, µL or pieces for people, for example {{ batch.made_ul|amount:"ul" }}."""
    return shown(value, unit)


@register.filter
def standing_words(standing: str) -> str:
    """How a batch stands, in a word."""
    return str(STANDINGS[standing])


@register.filter
def solution_words(kind: str) -> str:
    """What a kind of solution is called."""
    return str(Solution(kind).label)


@register.filter
def in_metric(line: Ingredient) -> str:
    """How much of a line, in grams or millilitres."""
    return told_line(line, "metric")


@register.filter
def grams_a_litre(strength: Strength) -> str:
    """A strength in g/L, to a tenth."""
    return f"{figures(strength.grams_per_litre, 1)} g/L"


@register.filter
def places(value: Fraction, number: int = 1) -> str:
    """A number of 0 or more in decimals."""
    return figures(Fraction(value), number)


@register.filter
def hundredths(value: int) -> str:
    """Hundredths as a number, for example 450 as 4.5."""
    return figures(Fraction(value, 100), 2).rstrip("0").rstrip(".")
