"""Words and small pictures of the bench for templates."""

from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from django import template
from django.utils.translation import gettext_lazy as _

from plates.models import PlateSize, Stage

register = template.Library()

# One length of the picture is about three millimetres of plate, for every size: they can be compared by eye.
PER_MM = Decimal("0.36")

# What is done, as it is called out at the bench, to bring a plate to each stage.
PRESSES: dict[str, str] = {
    Stage.POURED: "Pour",
    Stage.SENSITISED: "Out of the bath",
    Stage.EXPOSED: "Exposed",
    Stage.DEVELOPED: "Developed",
    Stage.FIXED: "Fixed",
    Stage.WASHING: "Into the wash",
    Stage.DRYING: "Onto the rack",
    Stage.VARNISHED: "Varnished",
    Stage.READY: "Ready to collect",
    Stage.HANDED_OVER: "Hand over",
}

BINDINGS: dict[str, str] = {
    "operator": "the photographer's hands",
    "tank": "the silver bath",
    "wash": "the wash",
    "sitters": "the room for sitters",
    "rest": "the rest of the silver bath",
    "closing": "closing time",
    "racks": "the hour when the racks are emptied",
    "opening": "opening time",
    "size": "the size of the tank",
    "waiting": "the wait that somebody would have",
    "undecided": "what could not be worked out in time",
}

BATHS: dict[str, Any] = {
    "bath strength": _("the strength of the silver bath"),
    "bath light": _("the rest in light that the silver bath is due for"),
}


@dataclass(frozen=True, slots=True)
class Step:
    """One stage on a plate's way: "gone", "here" or "ahead"."""

    word: str
    state: str


@register.inclusion_tag("plates/_plate.svg")
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
    return PRESSES[stage]


@register.filter
def way(stage: str | None) -> list[Step]:
    """Every stage of an unspoilt plate, and how far this one has come; None: not poured yet."""
    stages: list[Stage] = [each for each in Stage if each != Stage.SPOILT]
    at = stages.index(Stage(stage)) if stage in stages else -1
    return [
        Step(each.label, "gone" if place < at else "here" if place == at else "ahead")
        for place, each in enumerate(stages)
    ]


@register.filter
def binding(why: str) -> str:
    """What the engine's word for a limit is called in the studio."""
    cause, _, name = why.partition(":")
    if cause == "budget":
        return str(BATHS.get(name, f"the {name} in stock"))
    return BINDINGS.get(cause, cause)
