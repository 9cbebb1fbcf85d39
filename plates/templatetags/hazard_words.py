"""Hazards as they are shown."""

from django import template
from django.utils.translation import gettext

from plates.chemistry.hazards.statements import PICTOGRAMS
from plates.store.pictograms import symbol

register = template.Library()


@register.inclusion_tag("plates/common/_pictogram.svg")
def pictogram(code: str) -> dict[str, object]:
    """The pictogram of a code, named for who cannot see it."""
    return {"strokes": symbol(code), "name": f"{code}: {gettext(PICTOGRAMS[code])}"}
