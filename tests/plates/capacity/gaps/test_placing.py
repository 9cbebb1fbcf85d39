"""Gate 1 at every start minute of random days: bitset = minute grid = interval sweep.

The grid and the sweep below know the rules of the design page s.3 by themselves: they try the steps of one plate
one after the other, minute by minute, and share nothing with the engine.
"""

from functools import cache

import pytest

from plates.capacity import Bench, Booked, Day, Sitting, Size, Span, Timings
from plates.capacity.gaps.bitset import room_of
from plates.capacity.gaps.placing import Placing
from plates.capacity.gaps.reading import Taste, has, read_plan
from tests.plates.capacity import oracle
from tests.plates.capacity.days import DAY, QUARTER, WHOLE, random_day

BENCHES = {
    "one operator": Bench(),
    "narrow wash": Bench(wash_places=2),
    "one sitter": Bench(sitters_at_once=1),
    "two sitters": Bench(sitters_at_once=2),
    "short steps": Bench(timings=Timings(settle=0, load=0, lift=0, farewell=0, wash=Span(20, 24))),
    "two operators": Bench(operators=2, tank_places=1),
    "two of each": Bench(operators=2, tank_places=2, sitters_at_once=2),
}


def grid_of(bench, day, booked):
    """free(resource, begin, end, amount) by counting every minute of a grid."""
    length = max(day.closes, day.racks_empty_by)
    used = {name: [0] * length for name in LIMITS}
    for name, begin, end, amount in (held for each in booked for held in oracle.intervals(bench, each)):
        for minute in range(begin, end):
            used[name][minute] += amount

    def free(name, begin, end, amount=1):
        most = max(used[name][begin:end], default=0)
        return end <= length and most + amount <= getattr(bench, LIMITS[name])

    return free


def sweep_of(bench, day, booked):
    """The same by sweeping the ends of the intervals that touch."""
    length = max(day.closes, day.racks_empty_by)
    held = [held for each in booked for held in oracle.intervals(bench, each)]

    def free(name, begin, end, amount=1):
        touching = [
            (max(each[1], begin), min(each[2], end), each[3])
            for each in held
            if each[0] == name and each[1] < end and begin < each[2]
        ]
        return end <= length and oracle.peak(touching) + amount <= getattr(bench, LIMITS[name])

    return free


LIMITS = {
    "operators": "operators",
    "tank": "tank_places",
    "wash": "wash_places",
    "sitters": "sitters_at_once",
}


class Trying:
    """The minutes at which a one-plate sitter can be settled, found step by step."""

    def __init__(self, bench, day, free, size):
        self.times, self.day, self.free, self.size = bench.timings, day, free, size
        for step in ("here", "hand", "washed", "from_fix", "from_develop", "from_load", "from_pour"):
            setattr(self, step, cache(getattr(self, step)))

    def here(self, begin, end):
        return self.free("sitters", begin, end)

    def hand(self, begin, minutes, hands=1):
        return self.free("operators", begin, begin + minutes, hands)

    def washed(self, wash_in):
        wash, lift_for = self.times.wash, self.times.lift
        return any(
            lift + lift_for <= self.day.racks_empty_by
            and self.hand(lift, lift_for)
            and self.free("wash", wash_in, lift, self.size.wash_places)
            for lift in range(wash_in + wash.least, wash_in + wash.most + 1)
        )

    def from_fix(self, fix):
        t, fixed = self.times, fix + self.times.fix
        farewells = range(fixed, min(fixed + t.farewell_within, self.day.closes - t.farewell) + 1)
        goodbye = any(self.hand(bye, t.farewell) and self.here(fix, bye + t.farewell) for bye in farewells)
        return goodbye and self.hand(fix, t.fix) and self.washed(fixed)

    def from_develop(self, develop):
        t, done = self.times, develop + self.times.develop
        fixes = range(done, done + t.fix_within + 1)
        return self.hand(develop, t.develop) and any(
            self.from_fix(fix) and self.here(develop, fix) for fix in fixes
        )

    def from_load(self, load):
        t = self.times
        latest = load + t.wet_window - t.develop
        return self.hand(load, t.load) and any(
            self.hand(expose, t.expose) and self.from_develop(develop) and self.here(load, develop)
            for expose in range(load + t.load, latest - t.expose + 1)
            for develop in range(expose + t.expose, latest + 1)
        )

    def from_pour(self, pour):
        bath, tank_in = self.times.sensitise, pour + self.times.pour
        return self.hand(pour, self.times.pour) and any(
            self.free("tank", tank_in, load) and self.from_load(load) and self.here(pour, load)
            for load in range(tank_in + bath.least, tank_in + bath.most + 1)
        )

    def both_free(self, settle, pour):
        shared = range(max(settle, pour), min(settle + self.times.settle, pour + self.times.pour))
        return all(self.hand(minute, 1, 2) for minute in shared)

    def from_settle(self, settle):
        pours = range(settle, settle + self.times.first_pour_within + 1)
        return self.hand(settle, self.times.settle) and any(
            self.both_free(settle, pour) and self.from_pour(pour) and self.here(settle, pour)
            for pour in pours
        )

    def starts(self):
        return {settle for settle in range(self.day.closes) if self.from_settle(settle)}


@pytest.mark.parametrize("size", [QUARTER, WHOLE], ids=lambda size: size.name)
@pytest.mark.parametrize("bench", BENCHES.values(), ids=BENCHES)
@pytest.mark.parametrize("seed", range(2))
def test_bitset_grid_and_sweep_find_the_same_start_minutes(bench, size, seed):
    booked = random_day(seed, bench, requests=10, counts=(1, 2))
    placing = Placing(bench, DAY, room_of(bench, DAY, booked), (size,))
    by_bitset = {minute for minute in range(DAY.closes) if has(placing.starts, minute)}

    by_grid = Trying(bench, DAY, grid_of(bench, DAY, booked), size).starts()
    by_sweep = Trying(bench, DAY, sweep_of(bench, DAY, booked), size).starts()

    assert by_bitset == by_grid == by_sweep
    assert 0 < len(by_bitset) < DAY.closes


@pytest.mark.parametrize("plates", [1, 2, 3, 6])
def test_every_start_minute_of_a_busy_day_can_be_read_as_a_sound_plan(plates):
    bench = Bench(wash_places=12, tolerance=0)
    for seed in range(3):
        booked = random_day(seed, bench, requests=6, counts=(1, 2))
        order = (QUARTER,) * plates
        placing = Placing(bench, DAY, room_of(bench, DAY, booked), order)
        minutes = [minute for minute in range(DAY.closes) if has(placing.starts, minute)]
        assert minutes
        for minute in minutes:
            plan = read_plan(placing, minute, Taste())
            added = Booked(Sitting(minute, order), plan)
            assert oracle.sound(bench, DAY, [*booked, added])


def test_the_axis_may_begin_anywhere():
    early = Placing(Bench(), DAY, room_of(Bench(), DAY, []), (QUARTER,))
    later_day = Day(600, 1080, 1155)
    late = Placing(Bench(), later_day, room_of(Bench(), later_day, []), (QUARTER,))

    assert early.starts == late.starts
    assert read_plan(late, 0, Taste()).settle == 600


def test_a_day_too_short_for_any_sitting_has_no_start():
    day = Day(0, 17, 100)

    assert Placing(Bench(), day, room_of(Bench(), day, []), (QUARTER,)).starts == 0


def test_more_wash_places_than_there_are_is_no_start():
    huge = Size("mammoth", 7)

    assert Placing(Bench(), DAY, room_of(Bench(), DAY, []), (huge,)).starts == 0


def test_the_next_plate_is_poured_while_this_one_waits_when_the_day_is_short():
    # By hand: 24 minutes of hands, and 3 of the first bath in which there is nothing else to do.
    order = (QUARTER, QUARTER)
    short, shorter = Day(0, 27, 200), Day(0, 26, 200)
    placing = Placing(Bench(), short, room_of(Bench(), short, []), order)

    plan = read_plan(placing, 0, Taste())

    assert oracle.sound(Bench(), short, [Booked(Sitting(0, order), plan)])
    assert plan.plates[1].pour < plan.plates[0].fix
    assert Placing(Bench(), shorter, room_of(Bench(), shorter, []), order).starts == 0
