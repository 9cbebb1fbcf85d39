"""What a change of the bench is called in the studio."""

from django import template

register = template.Library()

CHANGES: dict[str, str] = {
    "none": "As it stands",
    "assistant": "An assistant",
    "operators+1": "One more operator all day",
    "tank_places+1": "One more tank place",
    "wash_places+1": "One more wash place",
}


@register.filter
def change_words(change: str) -> str:
    """The engine's word for a change, as it is said."""
    return CHANGES[change]
