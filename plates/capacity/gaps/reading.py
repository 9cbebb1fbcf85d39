"""A plan read off a Placing, from the settle minute forwards, by taste."""

from collections.abc import Iterator
from typing import Literal, NamedTuple

from plates.capacity.gaps.bitset import stretch
from plates.capacity.gaps.patterns import Tail
from plates.capacity.gaps.placing import Placing
from plates.capacity.problem.timeline import PlatePlan, SittingPlan

Baths = Literal["settle", "short", "long"]
Pour = Literal["soon", "settle", "late"]
Spacing = Literal["compact", "spread"]
Farewell = Literal["soon", "pour", "late"]


class Taste(NamedTuple):
    """What to prefer where several ways are free.

    baths: a bath just long enough to settle the next sitter meanwhile, the shortest, or the longest.
    pour: the first plate as soon after settling as may be, after settling one more sitter, or as late as may be.
    tail: the steps after the bath close together or spread out. farewell: at once, after just one more pour, or
    as late as may be.
    """

    baths: Baths = "short"
    pour: Pour = "soon"
    tail: Spacing = "compact"
    farewell: Farewell = "soon"


SNUG_WITHIN = 15


class _Steps(NamedTuple):
    pour: int
    load: int
    tail: Tail


def has(minutes: int, minute: int) -> bool:
    return bool(minutes >> minute & 1)


def lowest(minutes: int) -> int:
    """The first minute of a set; -1 for an empty one."""
    return (minutes & -minutes).bit_length() - 1


def read_plan(placing: Placing, settle: int, taste: Taste) -> SittingPlan | None:
    """A plan with the sitter settled at `settle` (one of placing.starts, from the opening).

    None only where the sitting's own lifts get in each other's way.
    """
    steps: list[_Steps] = []
    pour, hold = _first_pour(placing, settle, taste), 0
    for place in range(len(placing.plates)):
        load = pour + placing.times.pour + _bath(placing, place, pour, hold, taste)
        tail = _tail(placing, place, load, taste)
        steps.append(_Steps(pour, load, tail))
        fix = load + tail.fix
        if place + 1 == len(placing.plates):
            farewell = _farewell(placing, fix + placing.times.fix, taste)
        elif tail.pour is None:
            pour, hold = _soonest(placing.pours(place + 1, 0), fix + placing.times.fix), 0
        else:
            pour, hold = load + tail.pour, tail.hold
    lifts = _lifts(placing, settle, steps, farewell)
    return _plan(placing, settle, steps, farewell, lifts) if lifts else None


def _first_pour(placing: Placing, settle: int, taste: Taste) -> int:
    pours = placing.pours(0, 0)
    fitting = [
        gap
        for gap in range(placing.times.first_pour_within + 1)
        if has(placing.pour_after(gap) & placing.together(gap), settle) and has(pours, settle + gap)
    ]
    if taste.pour == "late":
        return settle + fitting[-1]
    wait = 2 * placing.times.settle if taste.pour == "settle" else 0
    return settle + next((gap for gap in fitting if gap >= wait), fitting[0])


def _soonest(later: int, minute: int) -> int:
    """The first of `later` from the minute on; placing has made sure that it is near enough."""
    return minute + lowest(later >> minute)


def _farewell(placing: Placing, fixed: int, taste: Taste) -> int:
    waits = [
        wait
        for wait in range(placing.times.farewell_within + 1)
        if has(placing.farewell, fixed + wait) and has(placing.together(wait), fixed)
    ]
    if taste.farewell == "late":
        return fixed + waits[-1]
    if taste.farewell == "pour":
        return fixed + next((wait for wait in waits if wait >= placing.times.pour), waits[0])
    return fixed + waits[0]


def _bath(placing: Placing, place: int, pour: int, hold: int, taste: Taste) -> int:
    times = placing.times
    minutes = list(range(times.sensitise.least, times.sensitise.most + 1))
    if taste.baths == "long":
        minutes.reverse()
    elif taste.baths == "settle":
        minutes.sort(key=lambda bath: (bath < times.settle, bath))
    baths = placing.baths[place]
    return next(bath for bath in minutes if has(baths[bath], pour) and times.pour + bath >= hold)


def _tail(placing: Placing, place: int, load: int, taste: Taste) -> Tail:
    tails = list(placing.tails(place))
    if taste.tail == "spread":
        tails.reverse()
    return next(tail for tail in tails if has(placing.loads(place, tail), load))


def _hands(placing: Placing, settle: int, steps: list[_Steps], farewell: int) -> Iterator[tuple[int, int]]:
    times = placing.times
    yield settle, times.settle
    yield farewell, times.farewell
    for pour, load, tail in steps:
        yield pour, times.pour
        yield load, times.load
        yield load + tail.expose, times.expose
        yield load + tail.develop, times.develop
        yield load + tail.fix, times.fix


def _lifts(placing: Placing, settle: int, steps: list[_Steps], farewell: int) -> list[int]:
    """One lift for each plate, never while the hands do something else for this sitting; [] if none fit."""
    own, length, lifts = 0, placing.room.length, list[int]()
    for begin, minutes in _hands(placing, settle, steps, farewell):
        own |= stretch(begin, begin + minutes, length)
    for place, (_, load, tail) in enumerate(steps):
        wash_in = load + tail.fix + placing.times.fix
        lift = _lift(placing, place, wash_in, own)
        if lift < 0:
            return []
        lifts.append(lift)
        own |= stretch(lift, lift + placing.times.lift, length)
    return lifts


def _lift(placing: Placing, place: int, wash_in: int, own: int) -> int:
    wash, lift = placing.times.wash, placing.times.lift
    held = lowest(~(placing.wash_free(place) >> wash_in))
    last = min(wash_in + wash.most, wash_in + held)
    taken = own if placing.bench.operators == 1 else own & ~placing.both
    open_at = placing.lift & stretch(wash_in + wash.least, last + 1, placing.room.length + 1)
    for minute in range(lift):
        open_at &= ~(taken >> minute)
    busy = (placing.full & ~placing.hands) | taken
    beside = open_at & ((busy << 1) | (busy >> max(lift, 1)))
    beside &= stretch(0, wash_in + wash.least + SNUG_WITHIN, placing.room.length)
    return lowest(beside or open_at)


def _plan(placing: Placing, settle: int, steps: list[_Steps], farewell: int, lifts: list[int]) -> SittingPlan:
    opens, times = placing.room.opens, placing.times
    plates = tuple(
        PlatePlan(
            pour=opens + pour,
            tank_in=opens + pour + times.pour,
            tank_out=opens + load,
            expose=opens + load + tail.expose,
            develop=opens + load + tail.develop,
            fix=opens + load + tail.fix,
            wash_in=opens + load + tail.fix + times.fix,
            lift=opens + lift,
        )
        for (pour, load, tail), lift in zip(steps, lifts, strict=True)
    )
    return SittingPlan(opens + settle, opens + farewell, plates)
