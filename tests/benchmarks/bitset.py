"""All start minutes of a day with sixty sittings for an order of one plate: bitsets, a numpy grid, an interval sweep.

Run from the top: `python -m tests.benchmarks.bitset`. The three are the same question with the same answer
at every minute,
which is asserted: the grid asks it of arrays of minutes, the sweep (tests/plates/capacity/gaps/test_placing.py) of one
minute after the other.
"""

import statistics
import time

import numpy as np

from plates.capacity import Bench, Day, Size
from plates.capacity.gaps.bitset import room_of
from plates.capacity.gaps.placing import Placing
from tests.benchmarks.gate_one import show
from tests.plates.capacity import oracle
from tests.plates.capacity.days import random_day
from tests.plates.capacity.gaps.test_placing import Trying, sweep_of

QUARTER = Size("quarter")
BENCH = Bench(operators=3, tank_places=2, wash_places=16, sitters_at_once=6)
DAY = Day(0, 480, 555)
SITTINGS = 60
LIMITS = {"operators": 3, "tank": 2, "wash": 16, "sitters": 6}


def ahead(mask, minutes):
    """At each minute what the mask has so many minutes later."""
    return mask if not minutes else np.concatenate([mask[minutes:], np.zeros(minutes, bool)])


def unbroken(free, minutes):
    """The minutes from which so many are free."""
    taken = np.concatenate([[0], np.cumsum(~free), np.full(minutes, free.size + 1)])
    return taken[minutes : minutes + free.size] == taken[: free.size]


def soon(later, stay, least, most):
    """The minutes from which `later` comes least..most minutes on, the sitter staying."""
    return np.any([ahead(later, wait) & unbroken(stay, wait) for wait in range(least, most + 1)], axis=0)


class Grid:
    """The minutes of the day as arrays of what is free."""

    def __init__(self, booked):
        used = {name: np.zeros(DAY.racks_empty_by, int) for name in LIMITS}
        for name, begin, end, amount in (held for each in booked for held in oracle.intervals(BENCH, each)):
            used[name][begin:end] += amount
        self.free = {name: used[name] < limit for name, limit in LIMITS.items()}
        self.two = used["operators"] + 1 < LIMITS["operators"]
        self.minute = np.arange(DAY.racks_empty_by)

    def starts(self):
        """True at every minute at which a one-plate sitter can be settled."""
        t, stay, hands = BENCH.timings, self.free["sitters"], self.free["operators"]
        can = {minutes: unbroken(hands & stay, minutes) for minutes in (1, 2, 4)}
        lift = unbroken(hands, t.lift) & (self.minute <= DAY.racks_empty_by - t.lift)
        washed = soon(lift, self.free["wash"], t.wash.least, t.wash.most)
        bye = can[t.farewell] & (self.minute <= DAY.closes - t.farewell)
        fix = can[t.fix] & ahead(washed, t.fix) & soon(bye, stay, t.fix, t.fix + t.farewell_within)
        develop = can[t.develop] & soon(fix, stay, t.develop, t.develop + t.fix_within)
        load = np.zeros_like(stay)
        for wait in range(t.load, t.load + t.wet_slack + 1):
            exposed = soon(develop, stay, t.expose, t.wet_window - t.develop - wait)
            load |= soon(can[t.expose] & exposed, stay, wait, wait)
        return self.settles(self.pours(load & can[t.load]))

    def pours(self, load):
        t, stay = BENCH.timings, self.free["sitters"]
        bath = soon(load, stay & self.free["tank"], t.sensitise.least, t.sensitise.most)
        return unbroken(self.free["operators"] & stay, t.pour) & ahead(bath, t.pour)

    def settles(self, pour):
        t, stay = BENCH.timings, self.free["sitters"]
        found = soon(pour, stay, t.settle, t.first_pour_within)
        for gap in range(t.settle):
            shared = ahead(unbroken(self.two, min(t.settle, gap + t.pour) - gap), gap)
            found |= shared & soon(self.early(pour, gap), stay, gap, gap)
        return found & unbroken(self.free["operators"] & stay, t.settle)

    def early(self, pour, gap):
        """Pours that begin before the sitter is settled; none of them is exposed too soon on this bench."""
        t = BENCH.timings
        if gap + t.pour + t.sensitise.least + t.load < t.settle:
            raise ValueError("a shorter bath would need the exposure to wait for the settling")
        return pour


def microseconds(work, times):
    """The median of the processor's microseconds."""
    took = []
    for _ in range(times):
        begin = time.process_time_ns()
        work()
        took.append((time.process_time_ns() - begin) / 1000)
    return statistics.median(took)


def main():
    booked = random_day(3, BENCH, requests=150, counts=(1,), sizes=(QUARTER,), day=DAY)[:SITTINGS]
    room, grid = room_of(BENCH, DAY, booked), Grid(booked)
    by_bitset = Placing(BENCH, DAY, room, (QUARTER,)).starts
    found = [minute for minute in range(DAY.closes) if by_bitset >> minute & 1]
    assert len(booked) == SITTINGS
    assert found == [int(minute) for minute in np.flatnonzero(grid.starts()[: DAY.closes])]
    assert found == sorted(Trying(BENCH, DAY, sweep_of(BENCH, DAY, booked), QUARTER).starts())
    bits = microseconds(lambda: Placing(BENCH, DAY, room, (QUARTER,)).starts, 1000)
    arrays = microseconds(grid.starts, 50)
    sweep = microseconds(lambda: Trying(BENCH, DAY, sweep_of(BENCH, DAY, booked), QUARTER).starts(), 3)
    show(
        f"{len(booked)} sittings, {DAY.closes} start minutes, {len(found)} of them open; all three agree at each"
    )
    show(f"bitsets {bits:.1f} us; numpy grid {arrays:.0f} us, {arrays / bits:.0f} times as long;"
         f" interval sweep {sweep:.0f} us, {sweep / bits:.0f} times as long")  # fmt: skip


if __name__ == "__main__":
    main()
