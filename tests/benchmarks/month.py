"""A month of start times read as a visitor's page reads them, in a database of its own: `python -m
tests.benchmarks.month`.

Prints the milliseconds of the selector for thirty days with sittings on them and an order of three plates: read from
what was worked out beforehand, and looked for as gaps, with the ratio; and how long the working out took.
"""

import random
import sys
import time
from datetime import timedelta
from statistics import median

from tests.benchmarks.studio import scratch_studio

DAYS = 30
LOOKS = 50
SEED = 20261128


def main() -> None:
    with scratch_studio():
        sys.stdout.write(report() + "\n")


def report() -> str:
    from plates.bench.models import DayStarts
    from plates.schedule.services import start_times as starts
    from tests.builders import NOW

    sittings = fill()
    gaps = milliseconds_of_a_look()
    begun = time.perf_counter()
    done = starts.work_out(now=NOW, seconds=3600)
    worked = time.perf_counter() - begun
    known = milliseconds_of_a_look()
    undecided = sum(len(row.undecided) for row in DayStarts.objects.all())
    return (
        f"{DAYS} days, {sittings} sittings, an order of 3 plates, median of {LOOKS} looks:\n"
        f"known beforehand {known:.1f} ms, looked for as gaps {gaps:.1f} ms, ratio {gaps / known:.1f}\n"
        f"worked out {done} orders of days in {worked:.1f} s ({1000 * worked / done:.0f} ms each), "
        f"{undecided} starts left undecided"
    )


def fill() -> int:
    """Thirty days with four to fourteen sittings of one or two plates each, through the services."""
    from datetime import date

    from plates.errors import BenchFull
    from tests import builders

    chance = random.Random(SEED)
    bench = builders.a_bench()
    sold = 0
    for number in range(DAYS):
        day = builders.a_day(on=date(2026, 11, 28) + timedelta(days=number), bench=bench)
        for _ in range(chance.randint(4, 14)):
            at = day.bench_day.opens_at + 15 * chance.randrange(30) * timedelta(minutes=1)
            try:
                builders.a_paid_order(day, at=at, sizes=("quarter",) * chance.randint(1, 2))
            except BenchFull:
                continue
            sold += 1
    return sold


def milliseconds_of_a_look() -> float:
    from bookings.diary import selectors as calendar
    from tests import builders
    from tests.builders import NOW

    sizes = [builders.a_size("quarter")] * 3
    days = calendar.open_days(now=NOW)
    times = []
    for _ in range(LOOKS):
        begun = time.perf_counter()
        found = calendar.openings(days=days, sizes=sizes, now=NOW)
        times.append(1000 * (time.perf_counter() - begun))
    assert len(found) == DAYS
    return median(times)


if __name__ == "__main__":
    main()
