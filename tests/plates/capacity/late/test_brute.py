"""Late days so small that every plan there is can be looked at: no solver and no engine in the second count.

The rules come from tests/plates/capacity/oracle.py, which has them from the design page s.3.
"""

import random
from dataclasses import replace
from itertools import product

import pytest

from plates.capacity import Bench, Booked, Day, Sitting, Span, Timings
from plates.capacity.late.day import late_day
from plates.capacity.late.progress import Made, Work, soonest
from tests.plates.capacity import oracle
from tests.plates.capacity.days import QUARTER
from tests.plates.capacity.every_plan import RESOURCES, sitting_plans

TINY = Timings(
    settle=1, pour=1, sensitise=Span(1, 2), load=1, expose=1, develop=1, wet_window=4, fix=1, fix_within=0,
    wash=Span(3, 4), lift=1, farewell=1, farewell_within=0, first_pour_within=2, next_pour_within=4,
)  # fmt: skip
LATEST = 22
STEPS = {"poured": ("pour", 0), "out": ("tank_out", 0), "exposed": ("expose", 1), "developed": ("develop", 1)}


def held_from(bench, booked, first):
    """What is held at each minute from `first` on, as one number for each resource, a digit to the base 16 a minute."""
    found = dict.fromkeys(RESOURCES, 0)
    for resource, begin, end, amount in oracle.intervals(bench, booked):
        found[resource] += sum(amount << 4 * minute for minute in range(max(begin, first), end))
    return tuple(found.values())


def ways(bench, day, work, now, hands):
    """For each minute of settling: everything that the rest of this work could hold."""
    wide = replace(bench, tolerance=LATEST if not work.begun else 0)
    long_day = replace(day, closes=day.closes + LATEST, racks_empty_by=day.racks_empty_by + LATEST)
    found = {}
    for booked in sitting_plans(wide, long_day, work.booked.sitting):
        if possible(bench, booked, work, now, hands):
            # Steps that are not pressed lie after the last press: nothing before it is counted.
            found.setdefault(booked.plan.settle, set()).add(held_from(bench, booked, min(hands, now)))
    return found


def possible(bench, booked, work, now, hands):
    """Whether the plan agrees with what was pressed, and ends no step before now that was not pressed."""
    [plate], [made], settle = booked.plan.plates, work.made, booked.plan.settle
    if not work.begun:
        overdue = work.booked.plan.plates[0].pour < now
        earliest = max(hands, now - TINY.settle)
        if not overdue:
            earliest = min(earliest, work.booked.plan.settle)
        return plate.pour >= now and settle >= earliest
    for step, (name, minutes) in STEPS.items():
        pressed, minute = getattr(made, step), getattr(plate, name) + minutes
        if pressed is None and (minute < now or (minutes and minute - minutes < hands)):
            return False
        if pressed is not None and minute != pressed:
            return False
    return plate.fix + TINY.fix >= now and plate.fix >= hands


def best(bench, day, works, now):
    """The least worst lateness and with it the least lateness in all, looked for in every plan there is."""
    presses = [getattr(made, step) for work in works for made in work.made for step in STEPS]
    hands = max((minute for minute in presses if minute is not None), default=day.opens)
    options = [ways(bench, day, work, now, hands) for work in works]

    def lateness(settles):
        late = [
            0 if work.begun else max(0, settle - work.booked.sitting.start - bench.tolerance)
            for work, settle in zip(works, settles, strict=True)
        ]
        return max(late), sum(late)

    for settles in sorted(product(*options), key=lateness):
        if together(bench, [option[settle] for option, settle in zip(options, settles, strict=True)]):
            return lateness(settles)
    raise AssertionError("no plan at all")


def together(bench, choices):
    ones = sum(1 << 4 * minute for minute in range(120))
    biases = [(7 - getattr(bench, name)) * ones for name in RESOURCES.values()]
    days = {(0,) * len(RESOURCES)}
    for ways_of_one in choices:
        days = {
            total
            for before, way in product(days, ways_of_one)
            for total in [tuple(a + b for a, b in zip(before, way, strict=True))]
            if not any((each + bias) & 8 * ones for each, bias in zip(total, biases, strict=True))
        }
    return bool(days)


def tiny_day(seed):
    """Two or three sittings of one plate promised close together; the first may be in its bath or beyond it."""
    chance = random.Random(seed)
    bench = Bench(
        tank_places=chance.choice((1, 2)), wash_places=chance.choice((1, 2)), tolerance=chance.choice((0, 1, 2)),
        timings=TINY, sitters_at_once=chance.choice((1, 2)),
    )  # fmt: skip
    starts = sorted(chance.sample(range(10), 2))
    works = [Work(soonest(bench, QUARTER, start), (Made(),)) for start in starts]
    now = starts[0] + chance.randrange(0, 9)
    if chance.random() < 0.7:
        pressed = [now - chance.randrange(0, 2)]
        if chance.random() < 0.5:
            pressed = [pressed[0] - 3, pressed[0] - 1]
        began = Sitting(pressed[0] - TINY.settle + 20, (QUARTER,))
        works = [shifted(work, 20) for work in works]
        plan = soonest(bench, QUARTER, began.start).plan
        pressed = [minute + 20 for minute in pressed]
        works.insert(0, Work(Booked(began, plan), (Made(*pressed),)))
        now += 20
    return bench, Day(0, 60, 70), works, now


def shifted(work, minutes):
    sitting = work.booked.sitting
    return Work(soonest(Bench(timings=TINY), QUARTER, sitting.start + minutes), work.made)


@pytest.mark.parametrize("seed", range(8))
def test_no_plan_of_a_tiny_day_is_better(seed):
    bench, day, works, now = tiny_day(seed)

    late = late_day(bench, day, works, now)

    assert late.proven
    assert (late.worst, late.total) == best(bench, day, works, now)
