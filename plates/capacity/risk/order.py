"""The order in which the hands take up the work of a planned day, and who follows whom in tank, wash and seats.

On a day that does not go as planned the hands keep this order. Three things give way, because hands do not stand
idle for them: a lift waits for its wash, a late sitter is settled later, a plate is made again as soon as that
spoils no other plate.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal, NamedTuple

from plates.capacity.problem.bench import Bench
from plates.capacity.problem.timeline import Booked, PlatePlan

Step = Literal["settle", "pour", "load", "expose", "develop", "fix", "farewell", "lift"]
STEPS: tuple[Step, ...] = ("settle", "pour", "load", "expose", "develop", "fix", "farewell", "lift")


class Turn(NamedTuple):
    """One piece of hand work: its planned minute, whose sitting, and which plate of the day (-1 for none)."""

    planned: int
    step: Step
    sitting: int
    plate: int = -1


@dataclass(frozen=True, slots=True)
class Place:
    """What a plate follows. Turns are given by their place in the order.

    follows: the plate before it on the day is one of the same sitting. tank: its tank place. behind: the plate
    that is to leave that place while this one is already poured, if any. pour_from, load_from: the planned minute
    before which it is not poured, not taken out of the bath, where other work follows that may have to be waited
    for. washed_after: the plates that leave its wash places. again_at: the turn before which it is made again.
    owed_at, lift: the turn from which on its lift is owed, and the minute of that in the plan.
    """

    sitting: int
    follows: bool
    tank: int
    behind: int | None
    pour_from: int | None
    load_from: int | None
    washed_after: tuple[int, ...]
    again_at: int
    owed_at: int
    lift: int


@dataclass(frozen=True, slots=True)
class Order:
    """A planned day as turns of the hands, without the lifts.

    calm: for each turn, and for the end of the day, whether hands are free of plates out of the bath and not yet in
    the fixer before it. seat_after: for each sitting the one whose seat it takes. starts: the promised ones.
    first_pour, farewell: these turns of each sitting. lifts: the plates in the order of their lifts.
    """

    turns: tuple[Turn, ...]
    calm: tuple[bool, ...]
    plates: tuple[Place, ...]
    seat_after: tuple[int | None, ...]
    starts: tuple[int, ...]
    first_pour: tuple[int, ...]
    farewell: tuple[int, ...]
    lifts: tuple[int, ...]


def plates_of(booked: Sequence[Booked]) -> Iterator[tuple[int, int, PlatePlan]]:
    """The sitting, the wash places and the plan of each plate of the day, in the order of the sittings."""
    for number, each in enumerate(booked):
        for size, plan in zip(each.sitting.plates, each.plan.plates, strict=True):
            yield number, size.wash_places, plan


def turns_of(bench: Bench, booked: Sequence[Booked]) -> list[Turn]:
    """Every turn of the day, lifts too. At one minute what takes no time comes first, then what others wait for."""

    def key(turn: Turn) -> tuple[int, bool, int, int, int]:
        takes_time = getattr(bench.timings, turn.step) > 0
        return turn.planned, takes_time, STEPS.index(turn.step), turn.sitting, turn.plate

    return sorted(_turns(booked), key=key)


def _turns(booked: Sequence[Booked]) -> Iterator[Turn]:
    for number, each in enumerate(booked):
        yield Turn(each.plan.settle, "settle", number)
        yield Turn(each.plan.farewell, "farewell", number)
    for plate, (number, _, plan) in enumerate(plates_of(booked)):
        yield Turn(plan.pour, "pour", number, plate)
        yield Turn(plan.tank_out, "load", number, plate)
        yield Turn(plan.expose, "expose", number, plate)
        yield Turn(plan.develop, "develop", number, plate)
        yield Turn(plan.fix, "fix", number, plate)
        yield Turn(plan.lift, "lift", number, plate)


def handed_on(
    stays: Sequence[tuple[int, int, int]], places: int
) -> tuple[list[list[int]], list[tuple[int, ...]]]:
    """For each stay (begin, end, how many places) the places it takes and the earlier stays that leave them to it."""
    free: list[tuple[int, int, int]] = [(-(10**12), place, -1) for place in range(places)]
    taken: list[list[int]] = [[] for _ in stays]
    before: list[tuple[int, ...]] = [() for _ in stays]
    for number in sorted(range(len(stays)), key=lambda each: stays[each]):
        _, end, amount = stays[number]
        free.sort()
        own, free = free[:amount], free[amount:]
        taken[number] = [place for _, place, _ in own]
        before[number] = tuple(sorted({last for _, _, last in own if last >= 0}))
        free.extend((end, place, number) for place in taken[number])
    return taken, before
