"""PURE: how long a plate may be left at each stage, and what the clock of the dark tent says about it.

The same few rows go to the telephone, which counts by them on its own while there is no network.
"""

from collections.abc import Callable, Iterable
from dataclasses import asdict, dataclass
from typing import Literal

from plates.capacity import Timings

Level = Literal["wait", "go", "soon", "late"]

# Seconds before the end of a span in which it is called out (common practice, no source).
SOON = 60


@dataclass(frozen=True, slots=True)
class Clock:
    """The span in which a stage should end, in seconds after the event `since`; no `most`: it only counts on.

    `wait`, `go` and `late` are what is called out before `least`, within the span and after `most`.
    """

    name: str
    since: str
    least: int
    most: int | None
    wait: str
    go: str
    late: str

    def __post_init__(self) -> None:
        if self.least < 0 or (self.most is not None and self.most < self.least):
            raise ValueError(f"the span of {self.name} cannot end before it begins")

    def as_json(self) -> dict[str, object]:
        return asdict(self)


@dataclass(frozen=True, slots=True)
class Reading:
    """What the clock says: how pressing, which seconds to show (left, or beyond once late), and in words."""

    level: Level
    seconds: int
    words: str


def clocks(timings: Timings, say: Callable[[str], str] = str) -> dict[str, Clock]:
    """The clock that runs at each stage, by the stage; "" is a plate whose pour is planned, from its planned minute.

    `say` puts what it says into another language.
    """
    wet = timings.wet_window * 60
    bath = (timings.pour + timings.sensitise.least) * 60, (timings.pour + timings.sensitise.most) * 60
    wash = timings.wash.least * 60, timings.wash.most * 60
    over = say("Past its wet time")
    return {
        "": Clock(
            say("Planned"),
            "planned",
            0,
            None,
            say("until the planned pour"),
            say("since the planned pour"),
            "",
        ),
        "poured": Clock(
            say("Bath"),
            "poured",
            *bath,
            say("Leave it in the bath"),
            say("May come out"),
            say("Take it out now"),
        ),
        "sensitised": Clock(say("Wet"), "sensitised", 0, wet, "", say("Still wet: expose it"), over),
        "exposed": Clock(say("Wet"), "sensitised", 0, wet, "", say("Still wet: develop it"), over),
        "developed": Clock(
            say("Fix"), "developed", 0, timings.fix_within * 60, "", say("Fix it"), say("Fix it now")
        ),
        "fixed": Clock(say("Rinse"), "fixed", 0, None, "", say("since fixing: into the wash"), ""),
        "washing": Clock(
            say("Wash"),
            "washing",
            *wash,
            say("Leave it in the wash"),
            say("May be lifted"),
            say("Lift it now"),
        ),
    }


def read_clock(clock: Clock, seconds: int) -> Reading:
    """What `clock` says `seconds` after it began (less than nothing: before a planned pour)."""
    if seconds < clock.least:
        return Reading("wait", clock.least - seconds, clock.wait)
    if clock.most is None:
        return Reading("go", seconds - clock.least, clock.go)
    if seconds > clock.most:
        return Reading("late", seconds - clock.most, clock.late)
    left = clock.most - seconds
    return Reading("soon" if left <= SOON else "go", left, clock.go)


def most_pressing(ends: Iterable[tuple[int, bool, float]]) -> int | None:
    """Which plate to take in hand, from (its place, in the wet part of the work, when its clock runs out).

    What is wet goes first, whatever is promised; then whichever clock runs out first.
    """
    ranked = sorted(ends, key=lambda end: (not end[1], end[2], end[0]))
    return ranked[0][0] if ranked else None
