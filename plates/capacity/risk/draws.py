"""What chance brings on thousands of days at once: who comes and when, how long each step takes, what is spoilt.

Each sitting has a stream of chance of its own, named by its start, so that it meets the same luck whatever else is
booked: what differs between two days with other sittings is the doing of those sittings, not noise.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import log1p, sqrt

import numpy as np
from numpy.typing import NDArray

from plates.capacity.problem.bench import Timings
from plates.capacity.problem.timeline import Booked
from plates.capacity.risk.values import Chances

Minutes = NDArray[np.float64]
Days = NDArray[np.bool_]
Key = tuple[int, ...]
OF_PLATE = ("pour", "load", "expose", "develop", "fix", "lift")
MOST_AGAIN = 2


@dataclass(frozen=True, eq=False)
class PlateLuck:
    """Minutes of each step of OF_PLATE, and how many times more it is made (0 to MOST_AGAIN): one entry a day."""

    work: dict[str, Minutes]
    again: Minutes


@dataclass(frozen=True, eq=False)
class SitterLuck:
    """Whether the sitter came, the minute of arrival, the minutes of settling and farewell: one entry a day.

    Nothing takes any time on a day on which the sitter does not come.
    """

    came: Days
    arrived: Minutes
    settle: Minutes
    farewell: Minutes
    plates: tuple[PlateLuck, ...]


def keys_of(booked: Sequence[Booked], opens: int) -> tuple[Key, ...]:
    """A name for the luck of each sitting: its start on the day, and which of that start it is."""
    starts = [each.sitting.start - opens for each in booked]
    return tuple((start % 2**32, starts[:number].count(start)) for number, start in enumerate(starts))


def drawn(
    timings: Timings, booked: Sequence[Booked], keys: Sequence[Key], chances: Chances, days: int, seed: int
) -> tuple[SitterLuck, ...]:
    """The luck of each sitting on so many days, the same for the same key, chances and seed.

    Hand work scatters about its planned minutes as a lognormal with that mean, sitters about their time as a normal
    (the model of capacity research s.5e).
    """
    streams = (np.random.Generator(np.random.SFC64((seed, *key))) for key in keys)
    return tuple(
        _sitter(timings, each, chances, days, stream) for each, stream in zip(booked, streams, strict=True)
    )


def _sitter(
    timings: Timings, booked: Booked, chances: Chances, days: int, stream: np.random.Generator
) -> SitterLuck:
    came = stream.random(days) >= chances.no_show
    arrived = booked.sitting.start + chances.late_sd * stream.standard_normal(days)
    settle, farewell = _work((timings.settle, timings.farewell), chances.spread, came, stream)
    plates = tuple(_plates(timings, len(booked.sitting.plates), chances, came, stream))
    return SitterLuck(came, arrived, settle, farewell, plates)


def _plates(
    timings: Timings, count: int, chances: Chances, came: Days, stream: np.random.Generator
) -> Iterator[PlateLuck]:
    planned = tuple(getattr(timings, step) for step in OF_PLATE)
    for _ in range(count):
        luck = stream.random(len(came))
        again = np.sum(
            [luck < chances.retake**time for time in range(1, MOST_AGAIN + 1)], axis=0, dtype=float
        )
        work = _work(planned, chances.spread, came, stream)
        yield PlateLuck(dict(zip(OF_PLATE, work, strict=True)), again * came)


def _work(planned: Sequence[int], spread: float, came: Days, stream: np.random.Generator) -> Minutes:
    """One row of minutes for each planned length."""
    sigma = sqrt(log1p(spread**2))
    factors = np.exp(sigma * stream.standard_normal((len(planned), len(came))) - sigma**2 / 2)
    return np.asarray(factors * np.multiply.outer(planned, came))
