"""What an exact confirmation takes on a day of which four fifths of the hands' minutes are booked.

Run from the top: `python -m tests.benchmarks.confirming [DAYS]`. Random days are filled by gates 0 to 2
until the load is
reached; then random requests are put to each, which stays as it is. Times are the processor's: the machine is shared.
"""

import random
import statistics
import sys

from plates.capacity import Bench, Day, Sitting, Size, admit
from plates.capacity.exact import model as exact_model
from plates.capacity.exact.replan import replan
from plates.capacity.problem.case import Case
from tests.benchmarks.days import load
from tests.benchmarks.gate_one import show, worked
from tests.plates.capacity.days import booked_after

QUARTER, WHOLE = Size("quarter"), Size("whole", 2)
DAY = Day(0, 480, 555)
LOAD = 0.8
REQUESTS_TO_FILL = 200
REQUESTS = 20
KINDS = {
    "one plate, one operator": (Bench(), (1,), (QUARTER,)),
    "one to three plates, one operator": (Bench(tolerance=10, wash_places=8), (1, 1, 2, 3), (QUARTER, WHOLE)),
    "one plate, two operators": (Bench(operators=2, wash_places=10, sitters_at_once=4), (1,), (QUARTER,)),
}


def random_sitting(chance, counts, sizes):
    plates = tuple(chance.choice(sizes) for _ in range(chance.choice(counts)))
    return Sitting(chance.randrange(0, DAY.closes, DAY.start_every), plates)


def whole_path(bench, booked, asked):
    """The plans of the day with the asked sitting, by gate 1 or else by gate 2; () for a refusal."""
    return admit(bench, DAY, booked, asked).plans or replan(bench, DAY, booked, asked).plans


def loaded_day(chance, bench, counts, sizes):
    """A day with LOAD of the hands' minutes booked, or None where the requests did not fill it so far."""
    booked = []
    for _ in range(REQUESTS_TO_FILL):
        asked = random_sitting(chance, counts, sizes)
        if Case(bench, DAY, tuple(booked)).bound(asked) is None:
            plans = whole_path(bench, booked, asked)
            booked = booked_after(booked, asked, plans) if plans else booked
        if load(bench, booked) >= LOAD:
            return booked
    return None


def line(name, took):
    took = sorted(took)
    return (
        f"  {name}: {len(took)} calls, median {statistics.median(took):.0f}, 95 % {took[len(took) * 19 // 20]:.0f},"
        f" longest {took[-1]:.0f} ms"
    )


def report(name, bench, counts, sizes, days):
    exactly, path, unknown, reached, possible = [], [], 0, 0, 0
    for seed in range(days):
        chance = random.Random(seed)
        booked = loaded_day(chance, bench, counts, sizes)
        reached += booked is not None
        for asked in (random_sitting(chance, counts, sizes) for _ in range(REQUESTS if booked else 0)):
            if Case(bench, DAY, tuple(booked)).bound(asked):
                continue
            plans, took = worked(lambda b=booked, a=asked: whole_path(bench, b, a))
            path.append(took)
            possible += bool(plans)
            if not Case(bench, DAY, tuple(booked)).insert(asked):
                found, took = worked(lambda b=booked, a=asked: replan(bench, DAY, b, a))
                exactly.append(took)
                unknown += found.unknown
    show(
        f"{name}: {reached} of {days} days came to {100 * LOAD:.0f} %; {len(path)} asked, {possible} possible"
    )
    if exactly:
        show(line("replan where insertion finds nothing", exactly) + f", unknown {unknown}")
        show(line("insertion, its reason, then replan", path))


if __name__ == "__main__":
    exact_model.WALL_FACTOR = 1000
    for name, kind in KINDS.items():
        report(name, *kind, int(sys.argv[1]) if len(sys.argv) > 1 else 20)
        sys.stdout.flush()
