"""The strength of a bath over the plates that went through it, as a picture. Pure layout: numbers become lengths."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from plates.chemistry.bath.book import Point
from plates.chemistry.bath.care import BathLimits
from plates.chemistry.sentences import Sentence
from plates.chemistry.values import figures

WIDTH, HEIGHT = 620, 240
LEFT, RIGHT, TOP, BOTTOM = 44, 12, 14, 34
MOST_POINTS = 200  # more than one to three lengths of the drawing tell the eye nothing


@dataclass(frozen=True, slots=True)
class Mark:
    """A measurement."""

    x: int
    y: int
    title: Sentence


@dataclass(frozen=True, slots=True)
class Line:
    """A limit, or a figure on a side."""

    at: int
    words: str


@dataclass(frozen=True, slots=True)
class Picture:
    """All of it: the reckoned way as the points of a line, measurements, limits (y), plates (x)."""

    width: int
    height: int
    left: int
    right: int
    bottom: int
    way: str
    marks: tuple[Mark, ...]
    limits: tuple[Line, ...]
    plates: tuple[Line, ...]
    summary: Sentence


def lay_out(points: Sequence[Point], limits: BathLimits) -> Picture | None:
    """Draw the book of a bath; None for one of which nothing is known."""
    if not points:
        return None
    shown = _thinned(points)
    named = _named(limits)
    heights = [each.strength.grams_per_litre for each in points] + [held for held, _ in named]
    scale = _Scale(min(heights) - 5, max(heights) + 5, max(points[-1].plates, 1))
    return Picture(
        width=WIDTH,
        height=HEIGHT,
        left=LEFT,
        right=WIDTH - RIGHT,
        bottom=HEIGHT - BOTTOM,
        way=" ".join(f"{scale.x(each.plates)},{scale.y(each.strength.grams_per_litre)}" for each in shown),
        marks=tuple(_mark(each, scale) for each in points if each.measured),
        limits=tuple(Line(scale.y(held), words) for held, words in named),
        plates=(Line(LEFT, "0"), Line(WIDTH - RIGHT, _plates(scale.plates))),
        summary=_summary(points),
    )


@dataclass(frozen=True, slots=True)
class _Scale:
    least: Fraction
    most: Fraction
    plates: int

    def x(self, plates: int) -> int:
        return LEFT + (WIDTH - LEFT - RIGHT) * plates // self.plates

    def y(self, grams_per_litre: Fraction) -> int:
        share = (grams_per_litre - self.least) / (self.most - self.least)
        return int(HEIGHT - BOTTOM - (HEIGHT - TOP - BOTTOM) * share)


def _named(limits: BathLimits) -> tuple[tuple[Fraction, Sentence], ...]:
    target, warn, stop = (
        each.grams_per_litre for each in (limits.target, limits.warn_below, limits.stop_below)
    )
    return (
        (target, Sentence("target {held}", held=figures(target, 0))),
        (warn, Sentence("warn {held}", held=figures(warn, 0))),
        (stop, Sentence("stop {held}", held=figures(stop, 0))),
    )


def _plates(count: int) -> Sentence:
    return Sentence("1 plate") if count == 1 else Sentence("{count} plates", count=str(count))


def _mark(point: Point, scale: _Scale) -> Mark:
    held = figures(point.strength.grams_per_litre, 1)
    words = Sentence("{held} g/L measured after {plates}", held=held, plates=_plates(point.plates))
    return Mark(scale.x(point.plates), scale.y(point.strength.grams_per_litre), words)


def _thinned(points: Sequence[Point]) -> list[Point]:
    """Every measurement with the point before it, and as many of the rest as can be told apart."""
    step = max(len(points) // MOST_POINTS, 1)
    last = len(points) - 1
    keep = {
        place
        for place, each in enumerate(points)
        if place % step == 0 or place == last or each.measured or points[min(place + 1, last)].measured
    }
    return [points[place] for place in sorted(keep)]


def _summary(points: Sequence[Point]) -> Sentence:
    first, now = (figures(each.strength.grams_per_litre, 1) for each in (points[0], points[-1]))
    read = sum(each.measured for each in points)
    times = Sentence("measured once") if read == 1 else Sentence("measured {read} times", read=str(read))
    return Sentence(
        "From {first} g/L to {now} g/L over {plates}, {times}.",
        first=first,
        now=now,
        plates=_plates(points[-1].plates),
        times=times,
    )
