"""The strength of a bath over the plates that went through it, as a picture. Pure layout: numbers become lengths."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from plates.chemistry.bath_book import Point
from plates.chemistry.bath_care import BathLimits
from plates.chemistry.values import figures

WIDTH, HEIGHT = 620, 240
LEFT, RIGHT, TOP, BOTTOM = 44, 12, 14, 34
MOST_POINTS = 200  # more than one to three lengths of the drawing tell the eye nothing


@dataclass(frozen=True, slots=True)
class Mark:
    """A measurement."""

    x: int
    y: int
    title: str


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
    summary: str


def lay_out(points: Sequence[Point], limits: BathLimits) -> Picture | None:
    """Draw the book of a bath; None for one of which nothing is known."""
    if not points:
        return None
    shown = _thinned(points)
    named = (("target", limits.target), ("warn", limits.warn_below), ("stop", limits.stop_below))
    heights = [each.strength.grams_per_litre for each in points] + [each.grams_per_litre for _, each in named]
    scale = _Scale(min(heights) - 5, max(heights) + 5, max(points[-1].plates, 1))
    return Picture(
        width=WIDTH,
        height=HEIGHT,
        left=LEFT,
        right=WIDTH - RIGHT,
        bottom=HEIGHT - BOTTOM,
        way=" ".join(f"{scale.x(each.plates)},{scale.y(each.strength.grams_per_litre)}" for each in shown),
        marks=tuple(_mark(each, scale) for each in points if each.measured),
        limits=tuple(
            Line(scale.y(each.grams_per_litre), f"{name} {figures(each.grams_per_litre, 0)}")
            for name, each in named
        ),
        plates=(
            Line(LEFT, "0"),
            Line(WIDTH - RIGHT, f"{scale.plates} plate{'' if scale.plates == 1 else 's'}"),
        ),
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


def _mark(point: Point, scale: _Scale) -> Mark:
    held = figures(point.strength.grams_per_litre, 1)
    return Mark(
        scale.x(point.plates),
        scale.y(point.strength.grams_per_litre),
        f"{held} g/L measured after {point.plates} plates",
    )


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


def _summary(points: Sequence[Point]) -> str:
    first, now = (figures(each.strength.grams_per_litre, 1) for each in (points[0], points[-1]))
    plates, read = points[-1].plates, sum(each.measured for each in points)
    return (
        f"From {first} g/L to {now} g/L over {plates} plate{'' if plates == 1 else 's'},"
        f" measured {read} time{'' if read == 1 else 's'}."
    )
