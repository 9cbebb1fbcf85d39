"""Words and small pictures of the bench for templates."""

from dataclasses import dataclass
from decimal import Decimal

from django import template
from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop

from plates.bench.models import PlateSize, Stage
from plates.bench.stages import PRESSES
from plates.capacity.problem.answers import BUDGET, split_cause
from plates.common import words
from plates.common.stock_words import solution_within

register = template.Library()
register.filter(words.within)
register.simple_tag(words.language_tag)

# One length of the picture is about three millimetres of plate, for every size: they can be compared by eye.
PER_MM = Decimal("0.36")

BINDINGS: dict[str, str] = {
    "operator": gettext_noop("the photographer's hands"),
    "tank": gettext_noop("the silver bath"),
    "wash": gettext_noop("the wash"),
    "sitters": gettext_noop("the room for sitters"),
    "rest": gettext_noop("the rest of the silver bath"),
    "closing": gettext_noop("closing time"),
    "racks": gettext_noop("the hour when the racks are emptied"),
    "opening": gettext_noop("opening time"),
    "size": gettext_noop("the size of the tank"),
    "waiting": gettext_noop("the wait that somebody would have"),
    "undecided": gettext_noop("what could not be worked out in time"),
}

BATHS: dict[str, str] = {
    "bath strength": gettext_noop("the strength of the silver bath"),
    "bath light": gettext_noop("the rest in light that the silver bath is due for"),
}


@dataclass(frozen=True, slots=True)
class Step:
    """One stage on a plate's way: "gone", "here" or "ahead"."""

    word: str
    state: str


@register.inclusion_tag("plates/common/_plate.svg")
def plate_picture(size: PlateSize, times: int = 1) -> dict[str, object]:
    """A plate in true proportion with its tilted corner, `times` as large as in lists."""
    width, height = round(size.width_mm * PER_MM * times), round(size.height_mm * PER_MM * times)
    corner = max(3, min(width, height) // 6)
    return {
        "width": width + 2,
        "height": height + 2,
        "outline": _cut(1, 1, width, height, corner),
        "sheen": _cut(3, 3, width - 4, height - 4, corner - 1) if width > 12 else "",
    }


def _cut(x: int, y: int, width: int, height: int, corner: int) -> str:
    return f"M{x} {y}h{width - corner}l{corner} {corner}v{height - corner}h-{width}z"


@register.filter
def press(stage: str) -> str:
    """What to write on the button that brings a plate to `stage`."""
    return _(PRESSES[stage])


@register.filter
def way(stage: str | None) -> list[Step]:
    """Every stage of an unspoilt plate, and how far this one has come; None: not poured yet."""
    stages: list[Stage] = [each for each in Stage if each != Stage.SPOILT]
    at = stages.index(Stage(stage)) if stage in stages else -1
    return [
        Step(str(each.label), "gone" if place < at else "here" if place == at else "ahead")
        for place, each in enumerate(stages)
    ]


@register.filter
def binding(why: str) -> str:
    """What the engine's word for a limit is called in the studio."""
    cause, name = split_cause(why)
    if cause == BUDGET:
        return (
            _(BATHS[name]) if name in BATHS else _("the {name} in stock").format(name=solution_within(name))
        )
    return _(BINDINGS[cause]) if cause in BINDINGS else cause


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


@register.filter
def seconds(value: Decimal | None) -> str:
    """Seconds with no more places than were noted, for example 4.5 s; nothing for what was not noted."""
    return "" if value is None else f"{value.normalize():f} s"


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
