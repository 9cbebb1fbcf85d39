"""The proven maxima of an empty day; then what the exact re-plan adds to insertion, and what it takes, as a day fills.

Run from the top: `python -m tests.benchmarks.exact [DAYS]` (0 for the maxima alone). Days of random requests
on the grid,
each put to gate 1 and to gate 2; the day goes on with the plan of gate 1 where it has one, else with that of gate 2.
Bands are by the share of the hands' minutes that is booked when the request comes; what gate 0 refuses is not counted.
"""

import random
import statistics
import sys

from plates.capacity import Bench, Booked, Day, Sitting, Size
from plates.capacity.exact.replan import replan
from plates.capacity.gaps.bounds import attended
from plates.capacity.problem.case import Case
from tests.benchmarks.gate_one import show, worked
from tests.plates.capacity.exact.maxima import COLUMNS

QUARTER, WHOLE = Size("quarter"), Size("whole", 2)
DAY = Day(0, 480, 555)
BANDS = (0.3, 0.5, 0.65, 0.8, 9.0)
REQUESTS = 50


def load(bench, booked):
    times = bench.timings
    plates = [len(each.sitting.plates) for each in booked]
    return sum(attended(times, count) + count * times.lift for count in plates) / (
        DAY.closes * bench.operators
    )


def answered(bench, booked, asked):
    """The day after the request, whether gate 1 and gate 2 take it, and the processor's milliseconds for gate 2."""
    case = Case(bench, DAY, tuple(booked))
    own = case.insert(asked)
    exact, took = worked(lambda: replan(bench, DAY, booked, asked))
    sittings = [*(each.sitting for each in booked), asked]
    plans = [*(each.plan for each in booked), own] if own else exact.plans
    after = [Booked(*each) for each in zip(sittings, plans, strict=True)] if plans else booked
    return after, own is not None, exact, took


def requests(seed, counts, sizes):
    chance = random.Random(seed)
    for _ in range(REQUESTS):
        plates = tuple(chance.choice(sizes) for _ in range(chance.choice(counts)))
        yield Sitting(chance.randrange(0, DAY.closes, DAY.start_every), plates)


def measured(bench, counts, sizes, days):
    """One list of (gate 1 takes it, exact answer, milliseconds) for each band, and the loads reached."""
    bands, loads = [[] for _ in BANDS], []
    for seed in range(days):
        booked = []
        for asked in requests(seed, counts, sizes):
            if Case(bench, DAY, tuple(booked)).bound(asked):
                continue
            band = next(number for number, top in enumerate(BANDS) if load(bench, booked) < top)
            booked, *answer = answered(bench, booked, asked)
            bands[band].append(answer)
        loads.append(load(bench, booked))
    return bands, loads


def report(name, bench, counts, sizes, days):
    bands, loads = measured(bench, counts, sizes, days)
    show(f"{name}: {days} days, hands {100 * statistics.mean(loads):.0f} % taken at the end")
    for top, answers in zip(BANDS, bands, strict=True):
        if not answers:
            continue
        took = sorted(milliseconds for *_, milliseconds in answers)
        possible = sum(own or bool(exact.plans) for own, exact, _ in answers)
        own = sum(own for own, *_ in answers)
        show(
            f"  load below {min(top, 1):.2f}: {len(answers)} asked, {possible} possible, gate 1 finds {own};"
            f" unknown {sum(exact.unknown for _, exact, _ in answers)};"
            f" exact median {took[len(took) // 2]:.0f}, 9 of 10 within {took[len(took) * 9 // 10]:.0f},"
            f" longest {took[-1]:.0f} ms"
        )


def maxima():
    """Every row of the three tables of tests/plates/capacity/exact/maxima.py, each with its proof."""
    seconds = 0.0
    for name, (table, search) in COLUMNS.items():
        for places, known in table.items():
            found, took = worked(lambda s=search, p=places, k=known: s(p, k))
            seconds += took / 1000
            show(f"{name}, wash places {places:2d}: {found.number} of {known}, proven {found.proven},"
                 f" sound {found.sound}, {took / 1000:.2f} s")  # fmt: skip
    show(f"all rows {seconds:.1f} s of the processor")


if __name__ == "__main__":
    maxima()
    days = int(sys.argv[1]) if len(sys.argv) > 1 else 8
    if not days:
        sys.exit()
    report("single plates, tolerance 5", Bench(), (1,), (QUARTER,), days)
    report("one to three plates, tolerance 10", Bench(tolerance=10), (1, 1, 2, 3), (QUARTER, WHOLE), days)
