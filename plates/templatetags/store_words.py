"""How amounts and conditions of the store room are written."""

from datetime import date
from fractions import Fraction

from django import template
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from plates.budgets.levels_of_day import DayLevel, NotCounted
from plates.chemistry.bath.strength import Strength
from plates.chemistry.hazards.statements import PICTOGRAMS
from plates.chemistry.recipes.measures import amount_of
from plates.chemistry.recipes.scaling import Ingredient
from plates.chemistry.values import figures
from plates.common.words import translated, within
from plates.store.amounts import format_amount
from plates.store.models import Solution
from plates.store.pictograms import symbol

register = template.Library()
register.filter(translated)

CONDITIONS = {
    "ripening": gettext_lazy("Ripening"),
    "ready": gettext_lazy("Ready"),
    "past": gettext_lazy("Past its best"),
    "ended": gettext_lazy("No more"),
}


@register.filter
def amount(value: int | Fraction, unit: str) -> str:
    """A whole number of mg, µL or pieces for people, for example {{ batch.made_ul|amount:"ul" }}."""
    return format_amount(value, unit)


@register.filter
def condition_words(condition: str) -> str:
    """How a batch stands, in a word."""
    return str(CONDITIONS[condition])


@register.filter
def solution_words(kind: str) -> str:
    """What a kind of solution is called."""
    return str(Solution(kind).label)


@register.filter
def in_metric(line: Ingredient) -> str:
    """How much of a line, in grams or millilitres."""
    return amount_of(line, "metric")


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


@register.inclusion_tag("plates/common/_pictogram.svg")
def pictogram(code: str) -> dict[str, object]:
    """The pictogram of a code, named for who cannot see it."""
    return {"strokes": symbol(code), "name": f"{code}: {_(PICTOGRAMS[code])}"}


UL_IN_ML = 1000


@register.simple_tag
def level_words(level: DayLevel, on: date) -> str:
    """For example: collodion for 31 half plates, Saturday needs 38."""
    words = _("%(solution)s for %(enough)d %(size)s plates, %(day)s needs %(needed)d")
    return words % {
        "solution": within(level.solution),
        "enough": level.enough_for,
        "size": level.size,
        "day": date_format(on, "l"),
        "needed": level.needed,
    }


@register.filter
def longest(level: DayLevel) -> int:
    """The longer of the two bars, at least 1."""
    return max(level.enough_for, level.needed, 1)


@register.filter
def takes_words(level: DayLevel) -> str:
    """What a plate takes, and who says so: the table, or the studio's own stock-takes."""
    if level.takes_ul is None:
        return ""
    amount = format_amount(level.takes_ul, "ul")
    if not level.learned_cm2:
        return _("%(amount)s, by the table") % {"amount": amount}
    words = _("%(amount)s, learned from %(area)d cm² of your own plates")
    return words % {"amount": amount, "area": level.learned_cm2}


@register.filter
def not_counted(bottle: NotCounted) -> str:
    """Why a bottle is of no use on the day."""
    amount = bottle.left_ul // UL_IN_ML
    if bottle.ripe_from is None:
        return _("%(amount)d mL past its best") % {"amount": amount}
    return _("%(amount)d mL, ripe from %(day)s") % {
        "amount": amount,
        "day": date_format(bottle.ripe_from, "j M"),
    }
