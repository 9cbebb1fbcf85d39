"""Invented days for the tests of the engine: sizes, hours, and days filled by random requests."""

import random
from dataclasses import replace

from plates.capacity import Bench, Booked, Day, Sitting, Size, admit

QUARTER = Size("quarter")
WHOLE = Size("whole", wash_places=2)
DAY = Day(0, 480, 555)

# Each makes one thing of a bench or a day larger.
MORE = {
    "operators": lambda bench, day: (replace(bench, operators=bench.operators + 1), day),
    "tank places": lambda bench, day: (replace(bench, tank_places=bench.tank_places + 1), day),
    "wash places": lambda bench, day: (replace(bench, wash_places=bench.wash_places + 1), day),
    "sitters": lambda bench, day: (replace(bench, sitters_at_once=bench.sitters_at_once + 1), day),
    "tolerance": lambda bench, day: (replace(bench, tolerance=bench.tolerance + 5), day),
    "later closing": lambda bench, day: (bench, replace(day, closes=day.closes + 15)),
    "later racks": lambda bench, day: (bench, replace(day, racks_empty_by=day.racks_empty_by + 15)),
}


def booked_after(booked, asked, plans):
    """The booked sittings once more with the plans an admission gave."""
    sittings = [*(each.sitting for each in booked), asked]
    return [Booked(sitting, plan) for sitting, plan in zip(sittings, plans, strict=True)]


def random_day(seed, bench=None, requests=14, counts=(1, 1, 2, 3), sizes=(QUARTER, WHOLE), day=DAY):
    """A sound day: random requests on the grid, each kept when it was admitted."""
    chance, booked = random.Random(seed), []
    for _ in range(requests):
        plates = tuple(chance.choice(sizes) for _ in range(chance.choice(counts)))
        asked = Sitting(chance.randrange(day.opens, day.closes, day.start_every), plates)
        admission = admit(bench or Bench(), day, booked, asked)
        if admission.plans:
            booked = booked_after(booked, asked, admission.plans)
    return booked
