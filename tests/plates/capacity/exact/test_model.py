"""The building blocks of the exact plan against a published shop and against trying every start."""

import random
from itertools import product

import pytest

from plates.capacity.exact.model import Board

# Fisher & Thompson 1963, 6 jobs on 6 machines, least makespan 55 (reference: capacity research s.3 and s.7, there from
# a library of benchmarks). The table of (machine, minutes) is typed from memory; a slip would hardly give 55 again.
FT06 = [
    [(2, 1), (0, 3), (1, 6), (3, 7), (5, 3), (4, 6)],
    [(1, 8), (2, 5), (4, 10), (5, 10), (0, 10), (3, 4)],
    [(2, 5), (3, 4), (5, 8), (0, 9), (1, 1), (4, 7)],
    [(1, 5), (0, 5), (2, 5), (3, 3), (4, 8), (5, 9)],
    [(2, 9), (1, 3), (4, 5), (5, 4), (0, 3), (3, 1)],
    [(1, 3), (3, 3), (5, 9), (0, 10), (4, 4), (2, 1)],
]


def shop_board(until):
    board = Board()
    for job in FT06:
        before = None
        for machine, minutes in job:
            begin = board.minute(0, until - minutes)
            board.hold(f"machine {machine}", begin, minutes)
            if before:
                board.lag(before[0], begin, before[1])
            before = begin, minutes
    for machine in range(6):
        board.limit(f"machine {machine}", 1)
    return board


def shop(until):
    return shop_board(until).solve(10)


def test_the_published_shop_is_done_in_55_minutes_and_not_in_54():
    assert (shop(55), shop(54)) == ("found", "impossible")


LAST = 7


def little_case(seed):
    """Four steps with lags on both sides and a shared resource: lengths, amounts, lags, places."""
    chance = random.Random(seed)
    steps = [(chance.randint(0, 4), chance.randint(1, 2)) for _ in range(4)]
    lags = []
    for first, second in ((0, 1), (1, 2), (0, 3)):
        least = chance.randint(-1, 4)
        lags.append((first, second, least, least + chance.randint(0, 3)))
    return steps, lags, chance.randint(1, 3)


def tried(steps, lags, places):
    """Whether any of all starts keeps the rules, counted minute by minute."""
    for starts in product(range(LAST + 1), repeat=len(steps)):
        if all(least <= starts[b] - starts[a] <= most for a, b, least, most in lags) and all(
            sum(
                amount
                for begin, (minutes, amount) in zip(starts, steps, strict=True)
                if begin <= t < begin + minutes
            )
            <= places
            for t in range(LAST + 5)
        ):
            return True
    return False


def solved(steps, lags, places, in_order=None):
    board = Board()
    begins = [board.minute(0, LAST) for _ in steps]
    for begin, (minutes, amount) in zip(begins, steps, strict=True):
        board.hold("bench", begin, minutes, amount)
    for first, second, least, most in lags:
        board.lag(begins[first], begins[second], least, most)
    board.limit("bench", places)
    return board.solve(5, in_order=in_order) == "found"


def test_lags_and_limits_agree_with_trying_every_start():
    cases = [little_case(seed) for seed in range(60)]
    found = [solved(*case) for case in cases]

    assert found == [tried(*case) for case in cases]
    assert 10 < sum(found) < 50, "the cases must show both answers"


@pytest.mark.parametrize("in_order", [0, 0.001])
def test_the_order_of_search_changes_no_answer(in_order):
    cases = [little_case(seed) for seed in range(30)]

    assert [solved(*case, in_order) for case in cases] == [solved(*case) for case in cases]


def test_what_the_first_order_cannot_decide_in_its_time_the_second_decides():
    first_alone, both = shop_board(54), shop_board(54)

    assert first_alone.solve(1e-6) == "unknown"
    assert both.solve(10, in_order=1e-6) == "impossible"


def test_an_empty_window_has_no_solution():
    board = Board()
    board.minute(3, 2)

    assert board.solve(1) == "impossible"


@pytest.mark.parametrize(("least", "most", "outcome"), [(2, 4, "found"), (2, 3, "impossible")])
def test_a_place_is_held_until_its_own_end(least, most, outcome):
    board = Board()
    begin, end = board.minute(0, 0), board.minute(0, 4)
    board.hold_until("wash", begin, end, least, most)
    board.lag(begin, end, 4)
    board.limit("wash", 1)

    assert board.solve(1) == outcome


def test_the_least_of_one_amount_is_kept_while_the_next_is_pressed_down():
    # By hand: two steps of three minutes with the same hands; the second one cannot end before minute 6.
    board = Board()
    first, second, last = board.minute(0, 20), board.minute(0, 20), board.amount(0, 40)
    for step in (first, second):
        board.hold("operator", step, 3)
        board.lag(step, last, 3)
    board.limit("operator", 1)

    outcomes = [board.minimise([last], 1), board.minimise([second], 1)]

    assert outcomes == ["found", "found"]
    assert board.proven
    assert (board.value(last), board.value(first), board.value(second)) == (6, 3, 0)
