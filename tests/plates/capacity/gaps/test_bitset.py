"""Minute sets against the plain reading of what they mean, minute by minute."""

from hypothesis import given
from hypothesis import strategies as st

from plates.capacity import Bench
from plates.capacity.gaps.bitset import Levels, Room, kept_until, room_of, runs, stretch, within
from plates.capacity.problem.timeline import Occupation, occupations
from tests.plates.capacity.days import DAY, random_day

BENCH = Bench()
LENGTH = 40
minute_sets = st.integers(0, (1 << LENGTH) - 1)


def minutes(mask):
    return {minute for minute in range(mask.bit_length()) if mask >> minute & 1}


@given(begin=st.integers(-50, 50), end=st.integers(-50, 50))
def test_a_stretch_is_cut_to_the_day(begin, end):
    assert minutes(stretch(begin, end, LENGTH)) == set(range(begin, end)) & set(range(LENGTH))


@given(free=minute_sets, length=st.integers(1, 12))
def test_a_run_starts_where_every_minute_of_it_is_free(free, length):
    wanted = {t for t in range(LENGTH) if all(free >> (t + step) & 1 for step in range(length))}

    assert minutes(runs(free, length)) == wanted


@given(later=minute_sets, least=st.integers(0, 9), width=st.integers(-1, 15))
def test_within_finds_what_comes_soon_enough_but_not_too_soon(later, least, width):
    most = least + width
    wanted = {t for t in range(LENGTH) if any(later >> (t + wait) & 1 for wait in range(least, most + 1))}

    assert minutes(within(later, least, most)) == wanted


@given(later=minute_sets, free=minute_sets, least=st.integers(0, 9), width=st.integers(-1, 15))
def test_kept_until_finds_what_comes_while_every_minute_before_it_is_free(later, free, least, width):
    def kept(minute, wait):
        return later >> (minute + wait) & 1 and all(free >> (minute + step) & 1 for step in range(wait))

    wanted = {t for t in range(LENGTH) if any(kept(t, wait) for wait in range(least, least + width + 1))}

    assert minutes(kept_until(later, free, least, least + width)) == wanted


@given(taken=st.lists(st.tuples(minute_sets, st.integers(1, 4)), max_size=6))
def test_levels_count_what_is_in_use(taken):
    levels, counts = Levels(), [0] * LENGTH
    for mask, amount in taken:
        levels = levels.plus(mask, amount)
        counts = [count + amount * (mask >> minute & 1) for minute, count in enumerate(counts)]

    for limit in range(26):
        assert minutes(levels.over(limit)) == {t for t in range(LENGTH) if counts[t] > limit}


def test_the_room_of_a_day_agrees_with_a_minute_grid():
    for seed in range(3):
        booked = random_day(seed)
        room = room_of(BENCH, DAY, booked)
        for resource in ("operator", "tank", "wash", "sitter"):
            grid = [0] * room.length
            for taken in (each for sitting in booked for each in occupations(BENCH, sitting)):
                if taken.resource == resource:
                    for minute in range(taken.begin, taken.end):
                        grid[minute] += taken.amount
            for limit in range(8):
                found = minutes(room.free(getattr(room, resource), limit))
                assert found == {t for t in range(room.length) if grid[t] <= limit}


def test_nothing_is_free_below_a_limit_of_nought():
    room = Room(0, LENGTH).plus([Occupation("operator", 3, 5, 1, "load", 0)])

    assert room.free(room.operator, -1) == 0
    assert minutes(room.free(room.operator, 0)) == set(range(LENGTH)) - {3, 4}
