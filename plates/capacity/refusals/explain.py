"""A refusal in words a client can read."""

from collections.abc import Callable

from plates.capacity.problem.answers import Refusal

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


FREE = {
    "none": "No other time is free on that day.",
    "one": "{time} is free.",
    "some": "{times} and {last} are free.",
}


def sentence(refusal: Refusal, clock: Callable[[int], str], say: Callable[[str], str] = str) -> str:
    """Why the start is refused and which starts are free; `clock` writes a minute as the client reads it.

    `say` puts what stands in SENTENCES and FREE into another language, its {words} left as they are.
    """
    facts = {"begin": clock(refusal.begin), "end": clock(refusal.end), "name": refusal.budget}
    reason = say(SENTENCES[refusal.kind]).format(**facts)
    return f"{reason} {free(refusal, clock, say)}"


def free(refusal: Refusal, clock: Callable[[int], str], say: Callable[[str], str] = str) -> str:
    """Which starts are free instead."""
    return _free([clock(start) for start in refusal.nearest], say)


def _free(times: list[str], say: Callable[[str], str]) -> str:
    if not times:
        return say(FREE["none"])
    if len(times) == 1:
        return say(FREE["one"]).format(time=times[0])
    return say(FREE["some"]).format(times=", ".join(times[:-1]), last=times[-1])
