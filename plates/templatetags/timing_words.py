"""Minutes of the work as they are read."""

from django import template

register = template.Library()

STEPS: dict[str, str] = {
    "bath": "Pour and silver bath",
    "expose": "Load and expose",
    "develop": "Develop",
    "fix": "Fix and carry to the wash",
    "wash": "Wash",
}


@register.filter
def step_words(name: str) -> str:
    """What a step between two presses is called in the studio."""
    return STEPS[name]


@register.filter
def as_minutes(seconds: float) -> str:
    """A length in seconds, as minutes and seconds: 2:05."""
    minutes, rest = divmod(round(seconds), 60)
    return f"{minutes}:{rest:02d}"
