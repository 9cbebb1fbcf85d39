"""What a change of the bench is called in the studio."""

from django import template
from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop

register = template.Library()

CHANGES: dict[str, str] = {
    "none": gettext_noop("As it stands"),
    "assistant": gettext_noop("An assistant"),
    "operators+1": gettext_noop("One more operator all day"),
    "tank_places+1": gettext_noop("One more tank place"),
    "wash_places+1": gettext_noop("One more wash place"),
}


@register.filter
def change_words(change: str) -> str:
    """The engine's word for a change, as it is said."""
    return _(CHANGES[change])
