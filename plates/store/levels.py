"""How much is left: the newest count, with what came and less what went after it. Pure numbers, no rows."""

from collections.abc import Iterable
from dataclasses import dataclass

Move = tuple[str, int]

COMES = frozenset({"added", "received"})
GOES = frozenset({"taken", "used", "discarded"})


@dataclass(frozen=True, slots=True)
class Level:
    """What is left, never below 0; `missing` is by how much more has gone than was there: it wants a count."""

    left: int
    missing: int = 0


def level(first: int, moves: Iterable[Move]) -> Level:
    """What is left of `first` after these moves in order of time: a kind of event and a whole amount each."""
    left = first
    for kind, amount in moves:
        if kind == "counted":
            left = amount
        elif kind in COMES:
            left += amount
        elif kind in GOES:
            left -= amount
    return Level(max(left, 0), max(-left, 0))
