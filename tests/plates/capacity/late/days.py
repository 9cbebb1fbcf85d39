"""Days under way for the tests: what would have been pressed by some minute, had all been done as planned or later."""

import random
from dataclasses import replace
from functools import cache

from plates.capacity import Bench
from plates.capacity.late.progress import Made, Work, soonest
from tests.plates.capacity.days import random_day


def under_way(booked, now, behind=0, times=None):
    """The day at minute `now`, when every step was so many minutes `behind` its plan."""
    times = times or Bench().timings
    return [
        Work(each, tuple(made(plate, now - behind, behind, times) for plate in each.plan.plates))
        for each in booked
    ]


def made(plate, until, behind, times):
    """One plate as planned up to the minute `until`, each press `behind` minutes later."""
    planned = (
        plate.pour,
        plate.tank_out,
        plate.expose + times.expose,
        plate.develop + times.develop,
        plate.wash_in,
        plate.lift + times.lift,
    )
    return Made(*(minute + behind if minute <= until else None for minute in planned))


@cache
def in_order(seed, bench):
    """A sound random day, the sittings in the order of their promises; made once, because filling a day takes time."""
    return sorted(random_day(seed, bench, 20), key=lambda each: each.sitting.start)


def a_bad_day(seed, bench):
    """A random day some way behind its plan, some of its plates spoilt, each with its retake; and the minute it is."""
    chance = random.Random(seed)
    booked, now = in_order(seed, bench), chance.randrange(0, 420)
    works = under_way(booked, now, chance.choice((0, 1, 2, 5, 9, 20, 40)))
    retakes = []
    for place, work in enumerate(works):
        plates = list(work.made)
        for number, plate in enumerate(plates):
            if plate.poured is not None and plate.left and chance.random() < 0.2:
                plates[number] = replace(plate, spoilt=True)
                retakes.append(Work(soonest(bench, work.booked.sitting.plates[number], now), (Made(),)))
        works[place] = Work(work.booked, tuple(plates))
    return works + retakes, now
