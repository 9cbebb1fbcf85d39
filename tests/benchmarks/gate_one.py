"""How near gate 1 comes to the proven maxima, how full random days get, and how fast it answers.

Run from the top: `python -m tests.benchmarks.gate_one`. Proven maxima: reference: capacity research s.5a
(computed there
with CP-SAT; 480 minutes for sitters, racks empty by 480 or 555).
"""

import random
import sys
import time

from plates.capacity import Bench, Booked, Day, Sitting, Size, admit, openings
from plates.capacity.gaps.bounds import attended
from plates.capacity.gaps.most import most
from tests.plates.capacity.exact.maxima import SINGLE_480, SINGLE_555

QUARTER = Size("quarter")
DAY = Day(0, 480, 555)


def show(line):
    sys.stdout.write(line + "\n")


def clocked(work):
    """What the work gives, and the milliseconds it took."""
    begin = time.perf_counter()
    found = work()
    return found, (time.perf_counter() - begin) * 1000


def worked(work):
    """What the work gives, and the milliseconds of the processor it took: on a machine that others use too."""
    begin = time.process_time()
    found = work()
    return found, (time.process_time() - begin) * 1000


def maxima():
    for racks, proven in ((555, SINGLE_555), (480, SINGLE_480)):
        for places, maximum in proven.items():
            found, took = clocked(
                lambda p=places, r=racks: most(Bench(wash_places=p), Day(0, 480, r), (QUARTER,))
            )
            gap = 100 * (maximum - len(found.plan)) / maximum
            show(f"racks {racks} wash {places:2d}: found {len(found.plan)} of {maximum} ({gap:.0f} % short),"
                 f" bound {found.bound}, {took:.0f} ms")  # fmt: skip


def filled_day(seed, counts):
    """A day of 60 random requests on the grid, and the milliseconds of each admission."""
    chance, booked, took = random.Random(seed), [], []
    for _ in range(60):
        plates = (QUARTER,) * chance.choice(counts)
        asked = Sitting(chance.randrange(0, 480, 15), plates)
        admission, milliseconds = clocked(lambda a=asked, b=booked: admit(Bench(), DAY, b, a))
        took.append(milliseconds)
        if admission.plans:
            sittings = [*(each.sitting for each in booked), asked]
            booked = [Booked(*each) for each in zip(sittings, admission.plans, strict=True)]
    return booked, took


def speed(name, counts, days=8):
    filled = [filled_day(seed, counts) for seed in range(days)]
    times = Bench().timings
    work = sum(
        attended(times, len(each.sitting.plates)) + len(each.sitting.plates)
        for day, _ in filled
        for each in day
    )
    took = sorted(milliseconds for _, each in filled for milliseconds in each)
    show(f"{name}: hands {100 * work / (480 * days):.1f} % taken; admit median {took[len(took) // 2]:.1f} ms,"
         f" longest {took[-1]:.1f} ms")  # fmt: skip
    for plates in (1, 3, 6):
        found = [
            clocked(lambda d=day, p=plates: openings(Bench(), DAY, d, (QUARTER,) * p)) for day, _ in filled
        ]
        why = [clocked(lambda o=each: o.refused)[1] for each, _ in found]
        show(f"  openings for {plates} plates: longest {max(took for _, took in found):.1f} ms;"
             f" with every reason {max(why):.1f} ms more")  # fmt: skip
    month = [day for day, _ in filled] * 4
    _, took = clocked(lambda: [openings(Bench(), DAY, day, (QUARTER,)) for day in month[:30]])
    show(f"  a month of 30 such days: {took:.0f} ms")


if __name__ == "__main__":
    maxima()
    speed("single plates", (1,))
    speed("one to three plates", (1, 1, 2, 3))
