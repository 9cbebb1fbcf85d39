"""The planned minutes of a bench beside those that its own plate log teaches."""

from collections.abc import Iterator
from dataclasses import dataclass

from django.utils.translation import gettext as _

from plates.bench.models import Bench, Plate, PlateEvent
from plates.capacity.learning import LEAST_PLATES, Learned, Lesson, Press, lessons

# The newest plates count, so that what is learned follows a habit that changes.
NEWEST_PLATES = 300

# What is learned of these is a habit. How long a plate needs in the bath and in the wash is not.
HANDS = {"expose", "develop", "fix"}


@dataclass(frozen=True, slots=True)
class Timing:
    """One step of the work: planned minutes as words, what the log teaches, and the minutes to plan with, if any.

    `offered` is None where too few plates teach anything, where the plan already says so, and for bath and wash.
    """

    name: str
    planned: str
    learned: Learned
    by_size: tuple[tuple[str, Learned], ...]
    offered: int | None

    @property
    def chemistry(self) -> bool:
        """Its shortest time is a rule of the chemistry."""
        return self.name not in HANDS

    @property
    def too_few(self) -> bool:
        return self.learned.planning is None

    @property
    def least(self) -> int:
        """Plates that are needed before anything is learned."""
        return LEAST_PLATES


def timings(*, bench: Bench) -> list[Timing]:
    """Every step between two presses, in the order of the work; one query."""
    planned = planned_words(bench)
    return [
        Timing(
            name=lesson.step.name,
            planned=planned[lesson.step.name],
            learned=lesson.overall,
            by_size=lesson.by_size,
            offered=_offered(bench, lesson),
        )
        for lesson in lessons(presses(bench=bench))
    ]


def planned_words(bench: Bench) -> dict[str, str]:
    """The planned minutes of each step between two presses, as they are read."""
    return {
        "bath": f"{bench.pour} + " + _span(bench.sensitise_least, bench.sensitise_most),
        "expose": f"{bench.load} + {bench.expose}",
        "develop": f"{bench.develop}",
        "fix": f"{bench.fix}",
        "wash": _span(bench.wash_least, bench.wash_most),
    }


def _span(least: int, most: int) -> str:
    return _("{least} to {most}").format(least=least, most=most)


def planned_minutes(bench: Bench) -> dict[str, int]:
    """The planned minutes of each step of the hands; loading and exposing are told apart by no press."""
    return {"expose": bench.load + bench.expose, "develop": bench.develop, "fix": bench.fix}


def presses(*, bench: Bench) -> Iterator[Press]:
    """Every press on the newest plates of a bench, without a name: sizes, stages, seconds, whose hands."""
    newest = Plate.objects.filter(slot__job__day__bench=bench).order_by("-number")[:NEWEST_PLATES]
    rows = (
        PlateEvent.objects.valid()
        .filter(plate__in=newest.values("pk"))
        .values_list("plate_id", "plate__size__name", "stage", "at", "operator_id")
    )
    for plate, size, stage, at, operator in rows:
        yield Press(plate, size, stage, int(at.timestamp()), operator or 0)


def _offered(bench: Bench, lesson: Lesson) -> int | None:
    planned, learned = planned_minutes(bench).get(lesson.step.name), lesson.overall.planning
    return learned if planned is not None and learned != planned else None
