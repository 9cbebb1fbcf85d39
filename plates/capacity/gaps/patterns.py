"""The useful ways to lay out one plate after its bath, as offsets in minutes from loading.

A tail is straight (the next plate is poured after this one is in the fix) or woven (the next plate is poured
while this one still waits to be developed or fixed, so that its bath is not idle time for the hands). Waits
longer than MOST_WET_WAIT and MOST_FIX_WAIT are left to an exact re-plan: they would multiply the tails.
"""

from collections.abc import Iterator
from functools import cache
from typing import NamedTuple

from plates.capacity.problem.bench import Timings

MOST_WET_WAIT = 6
MOST_FIX_WAIT = 4


class Tail(NamedTuple):
    """Start of each step after loading. `pour`: the next plate's pour, or None when it comes after the fix.

    `hold`: how long after that pour the hands are still bound to this plate (0 for a straight tail).
    """

    expose: int
    develop: int
    fix: int
    pour: int | None = None
    hold: int = 0


@cache
def straight(timings: Timings) -> tuple[Tail, ...]:
    """All straight tails inside the wet window, the most compact first."""
    tails = (
        Tail(expose, develop, fix)
        for expose, develop in _exposures(timings)
        for fix in _fixes(timings, develop)
    )
    return tuple(sorted(tails, key=lambda tail: (tail.fix, tail.develop, tail.expose)))


@cache
def woven(timings: Timings) -> tuple[Tail, ...]:
    """All tails with the next pour between expose and develop or between develop and fix, compact first."""
    tails = (
        Tail(expose, develop, fix, pour, fix + timings.fix - pour)
        for expose, develop in _exposures(timings)
        for fix in _fixes(timings, develop)
        for pour in _pours(timings, expose, develop, fix)
        if fix + timings.fix - pour <= timings.pour + timings.sensitise.most
    )
    return tuple(sorted(tails, key=lambda tail: (tail.fix, tail.hold, tail.develop, tail.expose)))


def _exposures(timings: Timings) -> Iterator[tuple[int, int]]:
    slack = min(timings.wet_slack, MOST_WET_WAIT)
    for before in range(slack + 1):
        for between in range(slack - before + 1):
            expose = timings.load + before
            yield expose, expose + timings.expose + between


def _fixes(timings: Timings, develop: int) -> range:
    developed = develop + timings.develop
    return range(developed, developed + min(timings.fix_within, MOST_FIX_WAIT) + 1)


def _pours(timings: Timings, expose: int, develop: int, fix: int) -> Iterator[int]:
    yield from range(expose + timings.expose, develop - timings.pour + 1)
    yield from range(develop + timings.develop, fix - timings.pour + 1)
