"""What the plate log teaches about the minutes of each step: middles and spreads that a few odd plates cannot move.

A press tells when a step has ended (the press on the pour: when it began), so the length of a step is the time from
one press to another; a wait counts with the step that comes after it. Steps between which nobody presses
anything are learned together. Settling, lifting and the farewell leave no press, so nothing is learned of them.
"""

import statistics
from bisect import bisect_right
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import ceil

from plates.capacity.problem.values import CapacityValueError, whole

# 1 / the 0.75 quantile of the normal distribution: makes the median absolute deviation a standard deviation where
# lengths are normal (R, stats::mad, constant = 1.4826; Rousseeuw and Croux 1993, from memory).
MAD_OF_NORMAL = 1.4826
# Own judgement: with twelve plates two lie above the fifth that the planning value leaves out.
LEAST_PLATES = 12
# Own judgement: two presses within ten seconds were entered together, half a day apart on another day.
SHORTEST_SECONDS, LONGEST_SECONDS = 10, 12 * 3600
TIMES_THE_MIDDLE = 4


@dataclass(frozen=True, slots=True)
class Press:
    """One press in the log: which plate, its size, the stage it reached, whole seconds on any axis, whose hands."""

    plate: int
    size: str
    stage: str
    second: int
    hands: int = 0

    def __post_init__(self) -> None:
        for name in ("plate", "second", "hands"):
            whole(name, getattr(self, name), -(10**15), 10**15)
        for name in ("size", "stage"):
            if not isinstance(getattr(self, name), str) or not getattr(self, name):
                raise CapacityValueError(name, "must be a word")


@dataclass(frozen=True, slots=True)
class Step:
    """What happens from one press to another. `by_hand`: hands are at it all the while."""

    name: str
    begins: str
    ends: str
    by_hand: bool


# The wash begins in the plan the minute that fixing ends, so the way to the wash counts with fixing.
STEPS = (
    Step("bath", "poured", "sensitised", by_hand=False),
    Step("expose", "sensitised", "exposed", by_hand=True),
    Step("develop", "exposed", "developed", by_hand=True),
    Step("fix", "developed", "washing", by_hand=True),
    Step("wash", "washing", "drying", by_hand=False),
)


@dataclass(frozen=True, slots=True)
class Learned:
    """What some plates teach of one step.

    plates: how many it rests on. odd, between: how many were left out, for an absurd length or because the same
    hands pressed for another plate meanwhile. middle, spread: seconds. planning: whole minutes in which four of five
    are done. All three are None while there are too few plates.
    """

    plates: int
    odd: int = 0
    between: int = 0
    middle: float | None = None
    spread: float | None = None
    planning: int | None = None

    @property
    def left_out(self) -> int:
        return self.odd + self.between


@dataclass(frozen=True, slots=True)
class Lesson:
    """One step over all plates, and for each size that was made, in the order of their names."""

    step: Step
    overall: Learned
    by_size: tuple[tuple[str, Learned], ...]


def lessons(presses: Iterable[Press]) -> tuple[Lesson, ...]:
    """One lesson for each of STEPS, from presses in any order."""
    plates: dict[int, dict[str, Press]] = {}
    seconds: dict[int, list[tuple[int, int]]] = {}
    for press in presses:
        plates.setdefault(press.plate, {})[press.stage] = press
        seconds.setdefault(press.hands, []).append((press.second, press.plate))
    for times in seconds.values():
        times.sort()
    return tuple(_lesson(step, plates.values(), seconds) for step in STEPS)


def learned(lengths: Sequence[int], between: int = 0) -> Learned:
    """What these lengths in seconds teach; the absurd ones among them are left out and counted."""
    kept = plausible(lengths)
    odd = len(lengths) - len(kept)
    if len(kept) < LEAST_PLATES:
        return Learned(len(kept), odd, between)
    middle = statistics.median(kept)
    spread = MAD_OF_NORMAL * statistics.median(abs(length - middle) for length in kept)
    # "exclusive" because longer lengths than those seen may still come (Python, statistics.quantiles).
    within = statistics.quantiles(kept, n=5, method="exclusive")[-1]
    return Learned(len(kept), odd, between, middle, spread, ceil(within / 60))


def plausible(lengths: Sequence[int]) -> list[int]:
    """The lengths that can be work: neither pressed at once nor on another day, nor four times off the middle."""
    possible = [length for length in lengths if SHORTEST_SECONDS <= length <= LONGEST_SECONDS]
    if not possible:
        return []
    middle = statistics.median(possible)
    least, most = middle / TIMES_THE_MIDDLE, middle * TIMES_THE_MIDDLE
    return [length for length in possible if least <= length <= most]


def _lesson(
    step: Step, plates: Iterable[Mapping[str, Press]], seconds: Mapping[int, Sequence[tuple[int, int]]]
) -> Lesson:
    lengths: dict[str, list[int]] = {}
    between: dict[str, int] = {}
    for pressed in plates:
        if step.begins not in pressed or step.ends not in pressed:
            continue
        begin, end = pressed[step.begins], pressed[step.ends]
        if step.by_hand and _elsewhere(begin, end, seconds[end.hands]):
            between[end.size] = between.get(end.size, 0) + 1
        else:
            lengths.setdefault(end.size, []).append(end.second - begin.second)
    sizes = sorted({*lengths, *between})
    overall = [length for size in sizes for length in lengths.get(size, [])]
    return Lesson(
        step,
        learned(overall, sum(between.values())),
        tuple((size, learned(lengths.get(size, []), between.get(size, 0))) for size in sizes),
    )


def _elsewhere(begin: Press, end: Press, seconds: Sequence[tuple[int, int]]) -> bool:
    """Whether the hands that ended the step pressed for another plate while it lasted."""
    for second, plate in seconds[bisect_right(seconds, (begin.second, end.plate)) :]:
        if second >= end.second:
            return False
        if second > begin.second and plate != end.plate:
            return True
    return False
