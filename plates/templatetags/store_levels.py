"""Levels of solutions on a day, in words."""

from datetime import date

from django import template
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from plates.budgets.levels_of_day import DayLevel, NotCounted
from plates.common.words import within
from plates.store.amounts import shown

register = template.Library()

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
    amount = shown(level.takes_ul, "ul")
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
