"""A refusal in words a client can read."""

from collections.abc import Callable

from plates.capacity.answers import Refusal

SENTENCES = {
    "operator": "The photographer's hands are taken from {begin} to {end}.",
    "tank": "The silver bath is taken from {begin} to {end}.",
    "wash": "The wash is full from {begin} to {end}.",
    "sitters": "The room is full of sitters from {begin} to {end}.",
    "rest": "The silver bath has to rest between {begin} and {end}.",
    "closing": "The sitting would last until {end}, and the studio closes at {begin}.",
    "racks": "The plates would be washed at {end}, and the racks are emptied by {begin}.",
    "opening": "The studio opens at {end}.",
    "size": "The bench cannot take a plate of that size.",
    "budget": "There is not enough {name} for these plates on that day.",
    "waiting": "With this sitting too, whoever comes at {begin} would too often have to wait long.",
    "undecided": "Whether the bench can still make these plates at {begin} could not be worked out in time.",
    "grid": "No sitting starts at {begin}.",
}


def sentence(refusal: Refusal, clock: Callable[[int], str]) -> str:
    """Why the start is refused and which starts are free; `clock` writes a minute as the client reads it."""
    why, _, name = refusal.why.partition(":")
    reason = SENTENCES[why].format(begin=clock(refusal.begin), end=clock(refusal.end), name=name)
    return f"{reason} {free(refusal, clock)}"


def free(refusal: Refusal, clock: Callable[[int], str]) -> str:
    """Which starts are free instead."""
    return _free([clock(start) for start in refusal.nearest])


def _free(times: list[str]) -> str:
    if not times:
        return "No other time is free on that day."
    if len(times) == 1:
        return f"{times[0]} is free."
    return f"{', '.join(times[:-1])} and {times[-1]} are free."
