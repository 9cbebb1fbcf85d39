"""The building blocks of the exact plan against published hoist lines, whose tanks have least and most stays.

A stay with two sides, a single mover and no waiting between is what a plate's way through bath, camera and fixer is.
"""

import random
from itertools import pairwise, product

import pytest

from plates.capacity.exact.model import Board
from tests.plates.capacity.exact.hoist import Line, least_period, lifts

# The test case of singHoist2.mzn in the public MiniZinc tests, after Rodosek & Wallace 1998; its optimum of 25 stands
# in Gecode's test suite (MIT), with Removal = [0, 14, 43, 57].
SMALL = Line(
    stays=((10, 10), (25, 25), (10, 10)),
    carry=(4, 4, 4, 5),
    empty=((0, 2, 3, 3), (2, 0, 2, 3), (3, 2, 0, 2), (3, 3, 2, 0)),
)

# Phillips & Unger 1976, AIIE Transactions 8(2) 219-225: twelve tanks. The paper was not read; least and most stays and
# the loaded ways are those of the research page s.1, the empty ways those of a public program for the same line,
# with which the loaded ways agree (each is 20 seconds more). That program says 10 from tank 1 to 12 and 1 back; 1 is
# what the places of the tanks give, and either leaves the optimum where it is.
UPPER = """
0 11 14 16 14 19 22 24 26 29 6 8 10
0 2 5 2 8 10 13 15 17 10 3 1
0 2 0 5 8 10 13 15 12 6 3
0 2 3 5 8 10 13 15 8 6
0 5 8 10 13 15 12 6 3
0 3 5 7 10 18 11 9
0 2 5 7 20 14 11
0 2 5 23 16 14
0 2 25 19 16
0 27 21 19
0 7 9
0 2
0
"""


def both_ways(upper):
    rows = [[int(way) for way in row.split()] for row in upper.strip().splitlines()]
    places = range(len(rows))
    return tuple(tuple(rows[min(i, j)][abs(i - j)] for j in places) for i in places)


LARGE = Line(
    stays=((150, 200), (90, 120), (120, 180), (90, 125), (30, 40), (60, 120), (60, 120), (45, 75), (130, None),
           (120, None), (90, 120), (30, 60)),
    carry=(31, 22, 22, 22, 25, 23, 22, 22, 22, 47, 27, 22, 30),
    empty=both_ways(UPPER),
)  # fmt: skip


def played(line, period, lift, periods=4):
    """Whether the line can be run so, told by following the hoist and looking into each tank over some periods."""
    moves = sorted((lift[at] + turn * period, at) for turn in range(periods) for at in range(line.stations))
    for (minute, at), (following, then) in pairwise(moves):
        if minute + line.carry[at] + line.empty[(at + 1) % line.stations][then] > following:
            return False
    return all(kept(line, moves, tank) for tank in range(1, line.stations))


def kept(line, moves, tank):
    """Never two loads in a tank, each one there for its time; one may come in the minute in which one goes."""
    ups = [(minute, 0) for minute, at in moves if at == tank]
    downs = [(minute + line.carry[at], 1) for minute, at in moves if at == tank - 1]
    least, most = line.stays[tank - 1]
    since = None
    for minute, down in sorted(ups + downs):
        stayed = None if since is None else minute - since
        if stayed is not None and (down or stayed < least or stayed > (most or stayed)):
            return False
        since = minute if down else None
    return True


@pytest.mark.parametrize(("line", "optimum", "enough"), [(SMALL, 25, 62), (LARGE, 521, 1000)])
def test_the_published_least_periods_are_found_and_proven(line, optimum, enough):
    assert least_period(line, 1, enough) == optimum
    assert lifts(line, optimum - 1) == ("impossible", None, None)


def test_the_loaded_ways_of_the_large_line_are_the_empty_ways_and_twenty_seconds():
    ways = [LARGE.empty[at][(at + 1) % LARGE.stations] + 20 for at in range(LARGE.stations)]

    assert ways == list(LARGE.carry)


@pytest.mark.parametrize(("line", "period"), [(SMALL, 25), (LARGE, 521)])
def test_the_hoist_followed_from_lift_to_lift_keeps_every_stay(line, period):
    _, _, lift = lifts(line, period)

    assert played(line, period, lift)
    assert not played(line, period - 1, lift)
    assert not played(line, period, [*lift[:1], lift[1] - 1, *lift[2:]])


def test_the_published_lifts_of_the_small_line_are_those_found():
    # Removal = [0, 14, 43, 57] follows one load; within a period of 25 that is 0, 14, 18, 7.
    assert lifts(SMALL, 25) == ("found", 25, [0, 14, 43 - 25, 57 - 50])


def random_line(seed):
    chance = random.Random(seed)
    places = [chance.randint(0, 3) for _ in range(4)]
    empty = tuple(tuple(abs(one - two) for two in places) for one in places)
    stays = tuple((least, least + chance.randint(0, 2)) for least in (chance.randint(1, 9) for _ in range(3)))
    carry = tuple(1 + empty[at][(at + 1) % 4] for at in range(4))
    return Line(stays, carry, empty)


def tried(line, upto):
    """The least period of which any of all lifts is played well."""
    return next(
        period
        for period in range(1, upto + 1)
        for rest in product(range(period), repeat=3)
        if played(line, period, [0, *rest])
    )


@pytest.mark.parametrize("seed", range(12))
def test_small_random_lines_have_the_period_that_trying_all_lifts_finds(seed):
    line = random_line(seed)

    assert least_period(line, 0, 60) == tried(line, 60)


def test_either_side_may_hold_and_one_must():
    for distance, outcome in ((3, "found"), (2, "impossible")):
        board = Board()
        first, second = board.minute(0, distance), board.minute(0, distance)
        board.either([(first, second, 3), (first, second, 2)], [(second, first, 3)])
        assert board.solve(1) == outcome


def test_both_sides_are_tried_when_the_first_leads_nowhere():
    board = Board()
    first, second = board.minute(0, 9), board.minute(0, 9)
    board.either([(first, second, 4)], [(second, first, 5)])
    board.lag(second, first, 1)

    assert board.solve(1) == "found"
    assert board.value(first) - board.value(second) >= 5
