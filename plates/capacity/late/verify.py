"""The judge of a late day: reads the new minutes by itself and shares no rule with what has planned them.

Work that has not begun must keep every rule but the promised start and the hours. Work that has begun must keep every
shortest time and the real minutes of what was pressed; longest times it may have broken already.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from plates.capacity.late.progress import Expected, LateDay, Made, Work
from plates.capacity.problem.bench import Bench, Day
from plates.capacity.problem.timeline import Booked, Occupation
from plates.capacity.verify.sitting import sitting_faults

DONE_BY = {"expose": "exposed", "develop": "developed", "fix": "fixed", "lift": "lifted"}
FOLLOWS = ("pour", "sensitise", "load", "expose", "develop", "fix", "wash", "lift")


def faults(bench: Bench, day: Day, works: Sequence[Work], late: LateDay, now: int) -> tuple[str, ...]:
    """Every broken rule as one sentence; empty = sound."""
    found: list[str] = []
    for place, (work, each) in enumerate(zip(works, late.sittings, strict=True)):
        rules = (
            _begun(bench, place, work, each, late, now)
            if work.begun
            else _ahead(bench, day, place, work, each, now)
        )
        found.extend(rules)
    found.extend(_overloads(bench, works, late, now))
    return tuple(found)


def _ahead(bench: Bench, day: Day, place: int, work: Work, each: Expected, now: int) -> Iterator[str]:
    who, plan = f"Sitting {place + 1}", each.plan
    if plan is None:
        yield f"{who}: has no plan."
        return
    sitting = work.booked.sitting
    if plan.settle < sitting.start:
        yield f"{who}: settles at minute {plan.settle}, before it was promised."
    stored = work.booked.plan
    as_planned = plan.settle >= stored.settle and stored.plates[0].pour >= now
    if plan.plates[0].pour < now or (plan.settle + bench.timings.settle < now and not as_planned):
        yield f"{who}: begins before minute {now}, when nothing had been pressed for it."
    last = max(plan.farewell, *(plate.lift for plate in plan.plates), day.closes, day.racks_empty_by)
    moved = Booked(replace(sitting, start=max(sitting.start, plan.settle - bench.tolerance)), plan)
    long_day = replace(day, closes=last + 240, racks_empty_by=last + 240)
    yield from (fault.text for fault in sitting_faults(bench, long_day, place, moved))


def _begun(bench: Bench, place: int, work: Work, each: Expected, late: LateDay, now: int) -> Iterator[str]:
    for number, made in enumerate(work.made):
        who = f"Sitting {place + 1}, plate {number + 1}"
        steps = {held.what: held for held in each.left if held.plate == number}
        if not made.left:
            if steps:
                yield f"{who}: has steps left although nothing is to be done for it."
            continue
        yield from _chain(who, bench, made, steps, now)
        yield from _window(who, bench, made, steps, lost=(place, number) in late.lost)


def _chain(who: str, bench: Bench, made: Made, steps: dict[str, Occupation], now: int) -> Iterator[str]:
    times, before = bench.timings, made.poured
    for what in FOLLOWS:
        held, done = steps.get(what), getattr(made, DONE_BY.get(what, "poured"))
        if held is None:
            if what in DONE_BY and done is None:
                yield f"{who}: {what} is missing."
            before = done if what in DONE_BY and done is not None else before
            continue
        least = {"sensitise": times.sensitise.least, "wash": times.wash.least}.get(what) or getattr(
            times, what
        )
        if held.end - held.begin < least:
            yield f"{who}: {what} lasts {held.end - held.begin} minutes, at least {least} are needed."
        # Nothing is pressed between loading and exposing, nor between the end of the wash and lifting.
        if held.end < now and what not in ("load", "wash"):
            yield f"{who}: {what} ends at minute {held.end}, before now and without a press."
        if before is not None and held.begin < before:
            yield f"{who}: {what} begins at minute {held.begin}, before the step ahead of it ends."
        before = held.end


def _window(who: str, bench: Bench, made: Made, steps: dict[str, Occupation], *, lost: bool) -> Iterator[str]:
    if made.developed is not None or lost or "develop" not in steps:
        return
    out = made.out if made.out is not None else steps["sensitise"].end
    if steps["develop"].end > out + bench.timings.wet_window:
        yield f"{who}: is developed at minute {steps['develop'].end}, after its wet window, and is not given up."


def _overloads(bench: Bench, works: Sequence[Work], late: LateDay, now: int) -> Iterator[str]:
    """Each resource minute by minute from now on. Places that really hold a plate now cannot be taken back."""
    begun = [work for work in works if work.begun]
    plates = [pair for work in begun for pair in zip(work.booked.sitting.plates, work.made, strict=True)]
    in_tank = sum(made.left and made.poured is not None and made.out is None for _, made in plates)
    in_wash = sum(size.wash_places for size, made in plates if made.left and made.fixed is not None)
    most = {
        "operator": bench.operators,
        "tank": max(bench.tank_places, in_tank),
        "wash": max(bench.wash_places, in_wash),
        "sitter": max(bench.sitters_at_once, len(begun)),
    }
    held = [each for sitting in late.sittings for each in sitting.left]
    for minute in range(now, max((each.end for each in held), default=now)):
        for resource, limit in most.items():
            taken = sum(e.amount for e in held if e.resource == resource and e.begin <= minute < e.end)
            if taken > limit:
                yield f"Minute {minute}: {resource} needs {taken}, the bench has {limit}."
