"""The building blocks of the exact plan on the flow shop in which no job may wait between machines.

A plate from bath to fixer is nearly such a job. Reddi & Ramamoorthy 1972 and Wismer 1972 (both from memory) turn it
into a round trip: job k may begin d(j, k) after job j, the most over all machines i of j's work up to and with i less
k's work before i; the least end over all orders is the answer.
"""

import random
from itertools import accumulate, pairwise, permutations

import pytest

from plates.capacity.exact.model import Board


def machines_of(job):
    """(minutes after the beginning, minutes on the machine) for each machine in turn."""
    return list(zip(accumulate(job, initial=0), job, strict=False))


def ends(jobs, until):
    """Whether the engine's blocks find all jobs done within so many minutes."""
    board = Board()
    for job in jobs:
        begin = board.minute(0, until - sum(job))
        for machine, (after, minutes) in enumerate(machines_of(job)):
            board.hold(f"machine {machine}", begin + after, minutes)
    for machine in range(len(jobs[0])):
        board.limit(f"machine {machine}", 1)
    return board.solve(10)


def delay(first, second):
    """d(j, k) of the literature."""
    done = list(accumulate(first))
    before = accumulate(second[:-1], initial=0)
    return max(0, *(end - begin for end, begin in zip(done, before, strict=True)))


def delay_by_trying(first, second):
    """The same by moving the second job a minute at a time until no machine has both."""

    def clash(start):
        return any(
            a < start + b + q and start + b < a + p
            for (a, p), (b, q) in zip(machines_of(first), machines_of(second), strict=True)
        )

    # The second job is to come behind on the first machine, and so on all of them.
    return next(start for start in range(sum(first) + 1) if not clash(start) and start + second[0] > first[0])


def shortest(jobs):
    """The least end over all orders."""
    return min(
        sum(delay(one, two) for one, two in pairwise(order)) + sum(order[-1]) for order in permutations(jobs)
    )


def random_jobs(seed):
    chance = random.Random(seed)
    count, machines = chance.randint(2, 6), chance.randint(2, 5)
    return [[chance.randint(1, 9) for _ in range(machines)] for _ in range(count)]


@pytest.mark.parametrize("seed", range(16))
def test_the_least_end_is_that_of_the_best_of_all_orders_and_one_less_is_impossible(seed):
    jobs = random_jobs(seed)
    least = shortest(jobs)

    assert (ends(jobs, least), ends(jobs, least - 1)) == ("found", "impossible")


def test_three_jobs_by_hand():
    # By hand, with the jobs a = 1 3, b = 3 1, c = 2 2: abc begins at 0, 1, 4 and ends at 8. The other five orders, by
    # their delays, end at 8 (acb), 9 (bac), 10 (bca), 8 (cab) and 9 (cba).
    a, b, c = [1, 3], [3, 1], [2, 2]

    assert [delay(a, b), delay(b, c), delay(a, c), delay(c, b)] == [1, 3, 2, 2]
    assert shortest([a, b, c]) == 8
    assert (ends([a, b, c], 8), ends([a, b, c], 7)) == ("found", "impossible")


@pytest.mark.parametrize("seed", range(30))
def test_the_delay_of_the_literature_is_found_by_trying_minutes(seed):
    jobs = random_jobs(seed)

    assert all(delay(one, two) == delay_by_trying(one, two) for one, two in permutations(jobs, 2))
