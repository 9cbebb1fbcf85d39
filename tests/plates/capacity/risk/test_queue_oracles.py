"""The queue oracles against published figures, exact rationals, scipy and queues played out in simpy.

Figures marked "research" are those of the research page s.2a and s.2b, with the origin that page gives for them.
"""

import random
from fractions import Fraction
from math import exp

import numpy as np
import pytest
import simpy
from scipy import stats
from scipy.special import lambertw

from tests.plates.capacity.risk.queue_oracles import (
    blocked,
    grid_waits,
    mean_wait,
    must_wait,
    room,
    sitters_waits,
    wait_beyond,
)


def test_erlang_values_are_exact_rationals():
    # research s.2b; each also follows by hand from the sums of a^k / k!.
    assert blocked(Fraction(2), 3) == Fraction(4, 19)
    assert must_wait(Fraction(2), 3) == Fraction(4, 9)
    assert must_wait(Fraction(3, 2), 2) == Fraction(9, 14)


@pytest.mark.parametrize(("load", "places"), [(0.3, 1), (2.0, 3), (5.0, 10), (9.5, 4)])
def test_the_blocked_share_is_that_of_a_cut_off_poisson_count(load, places):
    # scipy.stats: Erlang B is P(N = c) / P(N <= c) for N Poisson of mean a.
    counted = stats.poisson(load)

    assert blocked(load, places) == pytest.approx(counted.pmf(places) / counted.cdf(places), rel=1e-12)


def test_ten_places_and_five_callers_block_one_in_fifty():
    assert blocked(5.0, 10) == pytest.approx(0.018385, abs=5e-7)  # research s.2b


def test_a_worked_example_of_ten_servers_has_one_in_ten_wait():
    # research s.2a: a worked question in a mathematics text (120 an hour, 3 minutes, 10 servers) says "about 0.10".
    assert must_wait(120 / 60 * 3, 10) == pytest.approx(0.10, abs=0.005)
    assert wait_beyond(0.0, 2.0, 1 / 3, 10) == pytest.approx(0.101299, abs=5e-7)


def test_waits_beyond_a_time_add_up_to_the_mean_wait():
    # research s.2b: M/M/2 with 1.5 arrivals and 1 service waits 9/7 on average; the mean is the area of the tail.
    assert sum(
        wait_beyond(step / 1000 + 0.0005, 1.5, 1.0, 2) for step in range(60_000)
    ) / 1000 == pytest.approx(9 / 7, abs=1e-6)


# research s.2a: Debian package octave-queueing 1.2.7-5 (GPL-3.0-or-later), tests of qsmmmk.m, there "from an example
# found on the web". The figures are facts, each with six digits: (arrivals, services, places, most) -> figure.
def test_the_three_rows_of_the_published_finite_rooms():
    three = room(40, 30, 3, 7)
    four = room(50, 10, 4, 6)
    two = room(3, 2, 2, 5)

    served = 40 * (1 - three[-1])
    inside = sum(number * share for number, share in enumerate(three))
    assert (three[0], inside / served) == pytest.approx((0.255037, 0.036517), abs=1e-6)
    assert four[-1] == pytest.approx(0.293543, abs=1e-6)
    inside = sum(number * share for number, share in enumerate(two))
    assert (two[0], two[-1], inside) == pytest.approx((0.179334, 0.085113, 2.00595), abs=1e-5)
    assert inside / (3 * (1 - two[-1])) - 1 / 2 == pytest.approx(0.230857, abs=1e-6)


def test_a_room_with_as_many_chairs_as_servers_is_erlang_b():
    assert room(2.0, 1.0, 3, 3)[-1] == pytest.approx(4 / 19, rel=1e-12)


@pytest.mark.parametrize(
    ("busy", "steady", "exponential"), [(".5", ".5", 1), (".8", "2", 4), (".9", "4.5", 9)]
)
def test_waits_before_one_server_follow_the_spread_of_the_service(busy, steady, exponential):
    # research s.2b: Wq/S for M/D/1 = .5 / 2 / 4.5 and for M/M/1 = 1 / 4 / 9.
    share = Fraction(busy)

    assert mean_wait(share, 1, 1) == Fraction(steady)
    assert mean_wait(share, 1, 2) == exponential


@pytest.mark.parametrize("busy", [0.5, 0.7, 0.8])
def test_even_calls_before_an_exponential_server_settle_to_the_known_tail(busy):
    # D/M/1 in any text on queues (from memory): P(W > 0) is the root s of s = exp(-(1 - s) / rho), here by Lambert's W
    # of scipy; the mean wait is s / (1 - s). The recursion knows only the number inside.
    root = float(-busy * lambertw(-exp(-1 / busy) / busy).real)
    waits, _ = sitters_waits([1 / busy] * 160)

    assert waits[-1] == pytest.approx(root / (1 - root), rel=2e-3)
    assert waits == sorted(waits)


def test_waits_on_a_grid_are_those_of_the_recursion_in_fine_steps():
    # The same day twice: exponential services by the number inside, and cut into steps of 1/100.
    gaps = [0.5, 1.25, 0.75, 1.0]
    exact, _ = sitters_waits(gaps)
    edges = np.arange(0, 20 * 100 + 1) / 100
    service = np.diff(stats.expon.cdf(np.concatenate([[0], edges + 1 / 200])))
    grid = [
        float(wait @ np.arange(len(wait))) / 100 for wait in grid_waits(service, [int(g * 100) for g in gaps])
    ]

    assert grid == pytest.approx(exact, abs=2e-3)


def test_waits_on_a_grid_by_hand():
    # Services of 1 or 3, called every 2.
    second, third = grid_waits(np.array([0, 0.5, 0, 0.5]), [2, 2])[1:]

    assert list(second) == [0.5, 0.5]
    # By hand, W + S - 2 from (0, 1), (0, 3), (1, 1), (1, 3): 0, 1, 0, 2, each with 1/4.
    assert list(third) == [0.5, 0.25, 0.25]


def played(seed, arrivals, services, places, callers):
    """A queue played out in simpy: for each caller (came, began, went)."""
    chance, seen, desk_of = random.Random(seed), [], simpy.Environment()
    desk = simpy.Resource(desk_of, places)

    def caller():
        came = desk_of.now
        with desk.request() as turn:
            yield turn
            began = desk_of.now
            yield desk_of.timeout(chance.expovariate(services))
        seen.append((came, began, desk_of.now))

    def door():
        for _ in range(callers):
            desk_of.process(caller())
            yield desk_of.timeout(chance.expovariate(arrivals))

    desk_of.process(door())
    desk_of.run()
    return seen


def test_a_played_queue_waits_as_erlang_says():
    # Batches of 1,000 callers are nearly independent, so their spread gives the standard error of the mean.
    waits = [began - came for came, began, _ in sorted(played(1, 1.5, 1.0, 2, 41_000))][1000:]
    batches = np.array(waits).reshape(40, 1000)
    for of_batch, exact in ((batches.mean(1), 9 / 7), ((batches > 2).mean(1), wait_beyond(2, 1.5, 1.0, 2))):
        error = of_batch.std(ddof=1) / len(of_batch) ** 0.5
        assert abs(of_batch.mean() - exact) < 4 * error


@pytest.mark.parametrize("seed", range(3))
def test_little_holds_on_every_played_trace_from_empty_to_empty(seed):
    # Little 1961 (from memory): mean number inside = callers a minute * mean minutes inside; on one trace an identity.
    trace = played(seed, 0.9, 1.0, 1, 500)
    end = max(went for _, _, went in trace)
    changes = sorted([(came, 1) for came, _, _ in trace] + [(went, -1) for _, _, went in trace])
    inside = area = last = 0
    for minute, change in changes:
        area += inside * (minute - last)
        inside, last = inside + change, minute

    callers_a_minute = len(trace) / end
    minutes_inside = sum(went - came for came, _, went in trace) / len(trace)
    assert area / end == pytest.approx(callers_a_minute * minutes_inside, rel=1e-9)
