"""How what was noted about a plate is written."""

from decimal import Decimal

from django import template

register = template.Library()


@register.filter
def seconds(value: Decimal | None) -> str:
    """Seconds with no more places than were noted, for example 4.5 s; nothing for what was not noted."""
    return "" if value is None else f"{value.normalize():f} s"
