"""Minutes of the work as they are read."""

from django import template
from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop

register = template.Library()

STEPS: dict[str, str] = {
    "bath": gettext_noop("Pour and silver bath"),
    "expose": gettext_noop("Load and expose"),
    "develop": gettext_noop("Develop"),
    "fix": gettext_noop("Fix and carry to the wash"),
    "wash": gettext_noop("Wash"),
}


@register.filter
def step_words(name: str) -> str:
    """What a step between two presses is called in the studio."""
    return _(STEPS[name])


@register.filter
def as_minutes(seconds: float) -> str:
    """A length in seconds, as minutes and seconds: 2:05."""
    minutes, rest = divmod(round(seconds), 60)
    return f"{minutes}:{rest:02d}"
