"""The verifier's rules for one sitting by itself: every least and every most time between its steps."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from plates.capacity.problem.bench import Bench, Day, Size
from plates.capacity.problem.timeline import Booked, PlatePlan


class Fault(NamedTuple):
    """A broken rule, the minutes it concerns, and the sentence that says so."""

    rule: str
    begin: int
    end: int
    text: str


def sitting_faults(bench: Bench, day: Day, number: int, booked: Booked) -> Iterator[Fault]:
    """The faults of the sitting that stands at `number` (from 0) on the day, whatever else is booked."""
    who = f"Sitting {number + 1}"
    yield from _promise(who, bench, day, booked)
    yield from _turns(who, bench, booked)
    for place, (size, plate) in enumerate(zip(booked.sitting.plates, booked.plan.plates, strict=True), 1):
        yield from _size(f"{who}, plate {place}", bench, size, plate)
        yield from _plate(f"{who}, plate {place}", bench, plate)
        yield from _racks(f"{who}, plate {place}", bench, day, plate)


def _within(
    who: str, what: str, minute: int, least: int, most: int, rule: str = "operator"
) -> Iterator[Fault]:
    if not least <= minute <= most:
        text = f"{who}: {what} at minute {minute}, allowed from {least} to {most}."
        yield Fault(rule, min(minute, least), max(minute, most), text)


def _promise(who: str, bench: Bench, day: Day, booked: Booked) -> Iterator[Fault]:
    times, plan, start = bench.timings, booked.plan, booked.sitting.start
    yield from _within(who, "the promised start is", start, day.opens, day.closes, "opening")
    yield from _within(who, "settle starts", plan.settle, start, start + bench.tolerance)
    yield from _within(who, "settle starts", plan.settle, day.opens, day.closes, "opening")
    fixed = max(plate.fix for plate in plan.plates) + times.fix
    yield from _within(who, "farewell starts", plan.farewell, fixed, fixed + times.farewell_within)
    gone = plan.farewell + times.farewell
    yield from _within(who, "farewell ends", gone, day.opens, day.closes, "closing")


def _turns(who: str, bench: Bench, booked: Booked) -> Iterator[Fault]:
    """Plates are poured and exposed one after the other: there is one sitter before the lens."""
    times, plan = bench.timings, booked.plan
    first = plan.plates[0]
    latest = plan.settle + times.first_pour_within
    yield from _within(f"{who}, plate 1", "the first pour starts", first.pour, plan.settle, latest)
    for place, (before, plate) in enumerate(zip(plan.plates, plan.plates[1:], strict=False), 2):
        least, most = before.pour + times.pour, before.fix + times.next_pour_within
        yield from _within(f"{who}, plate {place}", "the next pour starts", plate.pour, least, most)
        if plate.expose < before.expose + times.expose:
            text = f"{who}, plate {place}: expose at minute {plate.expose} overlaps the plate before it."
            yield Fault("operator", plate.expose, before.expose + times.expose, text)
    for place, plate in enumerate(plan.plates, 1):
        if plate.expose < plan.settle + times.settle:
            text = (
                f"{who}, plate {place}: expose at minute {plate.expose} comes before the sitter is settled."
            )
            yield Fault("operator", plate.expose, plan.settle + times.settle, text)


def _size(who: str, bench: Bench, size: Size, plate: PlatePlan) -> Iterator[Fault]:
    if bench.largest_mm is not None and size.sides_mm is not None:
        short, long = sorted(size.sides_mm)
        least, most = sorted(bench.largest_mm)
        if short > least or long > most:
            text = f"{who}: sensitise at minute {plate.tank_in}, but {size.name} is larger than the tank."
            yield Fault("size", plate.tank_in, plate.tank_out, text)


def _plate(who: str, bench: Bench, plate: PlatePlan) -> Iterator[Fault]:
    times = bench.timings
    poured = plate.pour + times.pour
    yield from _within(who, "sensitise starts", plate.tank_in, poured, poured)
    bath = times.sensitise
    earliest, latest = plate.tank_in + bath.least, plate.tank_in + bath.most
    yield from _within(who, "sensitise ends", plate.tank_out, earliest, latest)
    dry = plate.tank_out + times.wet_window
    loaded = plate.tank_out + times.load
    yield from _within(who, "expose starts", plate.expose, loaded, dry)
    exposed = plate.expose + times.expose
    yield from _within(who, "develop starts", plate.develop, exposed, dry)
    developed = plate.develop + times.develop
    yield from _within(who, "develop (wet window) ends", developed, exposed, dry)
    yield from _within(who, "fix starts", plate.fix, developed, developed + times.fix_within)
    fixed = plate.fix + times.fix
    yield from _within(who, "wash starts", plate.wash_in, fixed, fixed)


def _racks(who: str, bench: Bench, day: Day, plate: PlatePlan) -> Iterator[Fault]:
    wash, lift = bench.timings.wash, bench.timings.lift
    earliest, latest = plate.wash_in + wash.least, plate.wash_in + wash.most
    yield from _within(who, "wash ends", plate.lift, earliest, latest)
    yield from _within(who, "lift ends", plate.lift + lift, day.opens, day.racks_empty_by, "racks")


def rest_faults(bench: Bench, booked: Sequence[Booked]) -> Iterator[Fault]:
    """One fault for each plate that goes in when the bath should rest: after so many without a long enough pause."""
    if bench.rest is None:
        return
    plates = sorted((plate.tank_in, plate.tank_out) for each in booked for plate in each.plan.plates)
    since, empty_from = 0, None
    for tank_in, tank_out in plates:
        rested = empty_from is not None and tank_in >= empty_from + bench.rest.minutes
        since = 1 if rested else since + 1
        if since > bench.rest.plates and empty_from is not None:
            until = empty_from + bench.rest.minutes
            text = (
                f"All sittings: the bath takes plate {since} without a rest at minute {tank_in},"
                f" after {bench.rest.plates} it rests {bench.rest.minutes} minutes, until {until}."
            )
            yield Fault("rest", tank_in, until, text)
        empty_from = tank_out if empty_from is None else max(empty_from, tank_out)
