"""Where one more sitting fits into a day whose other plans stay as they are: every start minute at once.

Sets of minutes are worked out from the last step back to the first: a minute is in a step's set when the step
can start then and all that follows can still be done. A plan is then read off forwards, without ever turning
back. For one operator, one tank place and one plate nothing is missed; with more plates the wash is taken a
little too strictly (each plate of the sitting keeps its place until the last is lifted), which is safe.
"""

from collections.abc import Iterator
from functools import cached_property

from plates.capacity.gaps.bitset import Room, kept_until, runs, stretch, within
from plates.capacity.gaps.patterns import MOST_FIX_WAIT, MOST_WET_WAIT, Tail, straight, woven
from plates.capacity.problem.bench import Bench, Day, Size


class Placing:
    """The sets of one order of plates on one day; all minutes are counted from the opening."""

    def __init__(self, bench: Bench, day: Day, room: Room, plates: tuple[Size, ...]) -> None:
        self.bench, self.times, self.room, self.plates = bench, bench.timings, room, plates
        self.closes, self.racks = day.closes - day.opens, day.racks_empty_by - day.opens
        self.full = stretch(0, room.length, room.length)
        self.stay = room.free(room.sitter, bench.sitters_at_once - 1)
        self.hands = room.free(room.operator, bench.operators - 1)
        self.both = room.free(room.operator, bench.operators - 2)
        self.tank = room.free(room.tank, bench.tank_places - 1)
        self.crowded = self.stay != self.full
        self._steps()
        self.baths: list[dict[int, int]] = [{} for _ in plates]
        self.fixes: list[int] = [0 for _ in plates]
        self.after_fix: list[int] = [0 for _ in plates]
        self._tail_loads: list[dict[Tail, int]] = [{} for _ in plates]
        for place in reversed(range(len(plates))):
            self._plate(place)

    def _steps(self) -> None:
        times = self.times
        self.settle, self.pour = self.can(times.settle), self.can(times.pour)
        self.load, self.expose = self.can(times.load), self.can(times.expose)
        self.develop, self.fix = self.can(times.develop), self.can(times.fix)
        goodbye = stretch(0, self.closes - times.farewell + 1, self.room.length + 1)
        self.farewell = self.can(times.farewell) & goodbye
        lifted = stretch(0, self.racks - times.lift + 1, self.room.length + 1)
        self.lift = (runs(self.hands, times.lift) if times.lift else self.full) & lifted

    def can(self, minutes: int) -> int:
        """The minutes at which a hand is free for so long with the sitter in the house."""
        return runs(self.hands & self.stay, minutes) if minutes else (self.full << 1) | 1

    def together(self, minutes: int) -> int:
        """The minutes from which the sitter may stay in the house so long."""
        return runs(self.stay, minutes) if minutes else self.full

    def reach(self, later: int, least: int, most: int) -> int:
        """The minutes from which `later` is least..most minutes off, the sitter staying all the while."""
        if not self.crowded:
            return within(later, least, most)
        return kept_until(later, self.stay, least, most)

    def wash_free(self, place: int) -> int:
        """The minutes with wash places for this plate and for all earlier plates of the same sitting."""
        own = sum(size.wash_places for size in self.plates[: place + 1])
        return self.room.free(self.room.wash, self.bench.wash_places - own)

    def washable(self, place: int) -> int:
        """The minutes at which the wash can start and be ended by a free hand in time."""
        wash = self.times.wash
        return kept_until(self.lift, self.wash_free(place), wash.least, wash.most)

    def _plate(self, place: int) -> None:
        times, last = self.times, place + 1 == len(self.plates)
        self.fixes[place] = self.fix & (self.washable(place) >> times.fix)
        following = self.farewell if last else self.pours(place + 1, 0)
        latest = times.fix + times.farewell_within if last else times.next_pour_within
        self.after_fix[place] = self.fixes[place] & self.reach(following, times.fix, latest)
        found = self._straight_loads(place)
        for tail in () if last else woven(times):
            found |= self.loads(place, tail)
        self._baths(place, found)

    def tails(self, place: int) -> Iterator[Tail]:
        """Every tail for the plate, compact first; woven ones only where a plate follows."""
        yield from straight(self.times)
        if place + 1 < len(self.plates):
            yield from woven(self.times)

    def loads(self, place: int, tail: Tail) -> int:
        """The minutes at which the plate can be loaded to go on by this tail."""
        known = self._tail_loads[place]
        if tail not in known:
            known[tail] = self._loads(place, tail)
        return known[tail]

    def _loads(self, place: int, tail: Tail) -> int:
        found = self.load & (self.expose >> tail.expose) & (self.develop >> tail.develop)
        if tail.pour is None:
            found &= self.after_fix[place] >> tail.fix
        else:
            found &= (self.fixes[place] >> tail.fix) & (self.pours(place + 1, tail.hold) >> tail.pour)
        return found & self.together(tail.fix) if self.crowded and found else found

    def _straight_loads(self, place: int) -> int:
        """The minutes at which the plate can be loaded to go on by any straight tail, without trying each."""
        times, found = self.times, 0
        wait = min(times.fix_within, MOST_FIX_WAIT)
        developed = self.develop & self.reach(self.after_fix[place], times.develop, times.develop + wait)
        slack = min(times.wet_slack, MOST_WET_WAIT)
        for before in range(slack + 1):
            exposed = self.reach(developed, times.expose, times.expose + slack - before)
            found |= self.reach(self.expose & exposed, times.load + before, times.load + before)
        return found & self.load

    def _baths(self, place: int, loads: int) -> None:
        times = self.times
        for minutes in range(times.sensitise.least, times.sensitise.most + 1):
            until = times.pour + minutes
            found = self.pour & (loads >> until) & (runs(self.tank, minutes) >> times.pour)
            self.baths[place][minutes] = found & self.together(until) if self.crowded else found

    def pours(self, place: int, hold: int) -> int:
        """The minutes at which the plate can be poured, its loading no sooner than `hold` minutes later."""
        found = 0
        for minutes, bath in self.baths[place].items():
            if self.times.pour + minutes >= hold:
                found |= bath
        return found

    def pour_after(self, gap: int) -> int:
        """The settle minutes after which the first pour may follow in `gap` minutes, as far as hands go."""
        settle, pour = self.times.settle, self.times.pour
        if gap >= settle:
            return self.full
        if gap < settle - pour - self.times.sensitise.least:
            return 0
        return runs(self.both, min(settle, gap + pour) - gap) >> gap

    @cached_property
    def starts(self) -> int:
        """The minutes at which the sitter can be settled."""
        first, settle, latest = self.pours(0, 0), self.times.settle, self.times.first_pour_within
        found = self.reach(first, settle, latest)
        # Pouring while the sitter is still being settled takes another pair of hands.
        for gap in range(min(settle, latest + 1) if self.both else 0):
            found |= self.pour_after(gap) & self.reach(first, gap, gap)
        return found & self.settle
