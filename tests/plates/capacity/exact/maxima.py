"""The proven maxima of an empty day, as tables to be reproduced.

reference: capacity research s.5a, computed there with CP-SAT in another model of the same rules, every maximum proven.
Columns: single sittings, all inside 480 minutes; single sittings, sitters out by 480 and racks empty by 555; plates of
one sitter who stays all day, all inside 480. That model had no limit of sitters and, for the one sitter, none on the
wait from one plate to the next: with 11 minutes at most, two wash places would hold two plates.
"""

from dataclasses import dataclass
from types import SimpleNamespace

from plates.capacity import Bench, Day, Size, Timings
from plates.capacity.exact.day import Wanted
from plates.capacity.exact.most import most
from plates.capacity.exact.replan import solved
from tests.plates.capacity import oracle

QUARTER = Size("quarter")
SINGLE_480 = {2: 14, 4: 26, 6: 26, 8: 27, 10: 27}
SINGLE_555 = {2: 16, 4: 30, 6: 30, 8: 30, 10: 30}
ONE_SITTER = {2: 14, 4: 28, 6: 41, 8: 42, 10: 42}
SECONDS = 5.0


@dataclass(frozen=True)
class Found:
    """The most that was found, checked by the tests' own judge, and whether one more is proven impossible."""

    number: int
    proven: bool
    sound: bool


def single(places, racks):
    bench, day = Bench(wash_places=places, sitters_at_once=20), Day(0, 480, racks, 1)
    found = most(bench, day, (QUARTER,))
    return Found(len(found.plan), found.proven, oracle.sound(bench, day, found.plan))


def one_sitter(places, at_least):
    """The most plates of one sitter, upwards from a number: more than a sitting may have, so without `most`."""
    bench = Bench(wash_places=places, tolerance=0, timings=Timings(next_pour_within=240))
    day, number, sound = Day(0, 480, 480, 1), at_least - 1, True
    while True:
        plates = (QUARTER,) * (number + 1)
        answer = solved(bench, day, [Wanted(plates, 0, 480)], SECONDS)
        if not answer.plans:
            return Found(number, answer.impossible, sound)
        [plan] = answer.plans
        sitting = SimpleNamespace(start=plan.settle, plates=plates)
        sound = oracle.sound(bench, day, [SimpleNamespace(sitting=sitting, plan=plan)])
        number += 1


COLUMNS = {
    "single sittings, racks empty by 480": (SINGLE_480, lambda places, known: single(places, 480)),
    "single sittings, racks empty by 555": (SINGLE_555, lambda places, known: single(places, 555)),
    "plates of one sitter": (ONE_SITTER, one_sitter),
}
