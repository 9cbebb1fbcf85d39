"""How long a plate has lain, as it is said at the rack."""

from django import template
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

register = template.Library()

HOURS_FROM = 120  # minutes
DAYS_FROM = 48 * 60


@register.filter
def lain(minutes: int) -> str:
    """Minutes up to two hours, then hours up to two days, then days; each rounded down."""
    if minutes < HOURS_FROM:
        return ngettext("%(n)d minute", "%(n)d minutes", minutes) % {"n": max(0, minutes)}
    if minutes < DAYS_FROM:
        return _("%(n)d hours") % {"n": minutes // 60}
    return _("%(n)d days") % {"n": minutes // 1440}
