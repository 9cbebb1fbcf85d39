"""How many further sittings the what-if page finds on invented days, of how many at the most, and how long it takes.

Run from the top: `python -m tests.benchmarks.what_if [DAYS]`. Quarter plates on days filled by random
requests, an assistant
from the middle of the day; one line a day with what is found and, where that is not proven, the bound.
"""

import sys

from plates.capacity import Bench
from plates.capacity.exact.fill import Asked
from plates.capacity.what_if import what_if
from tests.benchmarks.gate_one import clocked, show
from tests.plates.capacity.days import DAY, QUARTER, random_day

GRID = tuple(range(0, DAY.closes, DAY.start_every))


def described(each):
    return f"{each.change} {each.sittings}" + ("" if each.proven else f" of {each.bound}")


def report(number, places, requests):
    bench = Bench(wash_places=places)
    booked = tuple(random_day(number, bench, requests=requests))
    asked = Asked(bench, DAY, booked, QUARTER, GRID)
    found, took = clocked(lambda: what_if(asked, assistant_from=DAY.closes // 2, patience=600))
    show(
        f"  {len(booked)} booked, wash {places}: {', '.join(map(described, found))};"
        f" {took / len(found):.0f} ms a change"
    )


if __name__ == "__main__":
    days = int(sys.argv[1]) if len(sys.argv) > 1 else 3
    show("sittings found, of how many at the most where that is not proven")
    for number in range(days):
        for places in (2, 4, 6):
            for requests in (0, 8, 20):
                report(number, places, requests)
