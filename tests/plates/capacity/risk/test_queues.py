"""The engine's own way of playing days against exact queues: hands that do nothing but settle.

All plates are planned long after the last sitter is settled and take no time, so each settling is a service and the
hands are the servers. Oracles: tests/plates/capacity/risk/queue_oracles.py; figures marked "research" stand on the
research page s.2b. Counts must lie within four standard errors.
"""

from math import sqrt

import numpy as np
import pytest
from scipy import stats

from plates.capacity import Bench, Booked, PlatePlan, Sitting, SittingPlan, Span, Timings
from plates.capacity.risk.draws import OF_PLATE, PlateLuck, SitterLuck
from plates.capacity.risk.ordering import order_of
from plates.capacity.risk.simulate import play
from tests.plates.capacity.days import QUARTER
from tests.plates.capacity.risk.queue_oracles import (
    calling_cost,
    grid_waits,
    mean_wait,
    must_wait,
    sitters_waits,
    wait_beyond,
)

DAYS = 20_000
# A day here is shorter than a bath may be stretched, so that everybody is waited for in turn.
TIMINGS = Timings(sensitise=Span(1, 240))
PLATES = 10_000


def planned(place):
    """A sitting settled at its place in the queue, its plate when all are settled."""
    pour = PLATES + 100 * place
    steps = {
        step: pour + more
        for more, step in enumerate(("pour", "tank_in", "tank_out", "expose", "develop", "fix"))
    }
    plate = PlatePlan(**steps, wash_in=pour + 6, lift=pour + 70)
    return Booked(Sitting(0, (QUARTER,)), SittingPlan(place, pour + 7, (plate,)))


def waits_of(arrivals, services, came=None, hands=1):
    """Waits until settled, by the engine, of sitters that come in turn: arrays of sitters by days."""
    came = np.ones(np.shape(services), dtype=bool) if came is None else came
    nothing = np.zeros(services.shape[1])
    plate = PlateLuck(dict.fromkeys(OF_PLATE, nothing), nothing)
    luck = [
        SitterLuck(here, arrived, service * here, nothing, (plate,))
        for here, arrived, service in zip(came, arrivals, services, strict=True)
    ]
    booked = [planned(place) for place in range(len(services))]
    bench = Bench(operators=hands, tank_places=20, wash_places=200, sitters_at_once=100, timings=TIMINGS)
    played = play(bench, 0, order_of(bench, booked), luck)
    return np.array([played.settled[number] for number in range(len(booked))]) - arrivals


def called(gaps):
    """Arrivals so many gaps apart, the same every day."""
    return np.repeat(np.concatenate([[0.0], np.cumsum(gaps)])[:, None], DAYS, axis=1)


def within_four_errors(samples, exact):
    return abs(np.mean(samples) - exact) <= 4 * np.std(samples) / sqrt(len(samples))


# research s.2b: sitters, weight of waiting, chance to come, best gaps, cost.
RESEARCH = [
    (1, 1, (0.8890, 1.0527), 4.63972),
    (1, 1, (0.9746, 1.4225, 1.4004, 1.1136), 8.76252),
    (1, 1, (1.0060, 1.5092, 1.5895, 1.6111, 1.6100, 1.5908, 1.5455, 1.4417, 1.1253), 19.38709),
    (0.1, 1, (0.1686, 0.6439, 0.8259, 0.8926, 0.9122, 0.9025, 0.8651, 0.7863, 0.5947), 12.26608),
    (4, 1, (1.8855, 2.2083, 2.2442, 2.2530, 2.2536, 2.2478, 2.2303, 2.1757, 1.9058), 26.97476),
    (1, 0.9, (0.8451, 1.3608, 1.4448, 1.4676, 1.4663, 1.4462, 1.3991, 1.2931, 0.9779), 17.87802),
    (1, 0.75, (0.5760, 1.1210, 1.2106, 1.2352, 1.2339, 1.2123, 1.1628, 1.0549, 0.7373), 15.40399),
]


@pytest.mark.parametrize(("weight", "shows", "gaps", "cost"), RESEARCH)
def test_appointments_cost_what_the_exact_recursion_says(weight, shows, gaps, cost):
    chance = np.random.default_rng(len(gaps))
    services = chance.exponential(size=(len(gaps) + 1, DAYS))
    came = chance.random(services.shape) < shows
    arrivals = called(gaps)

    waits = waits_of(arrivals, services, came)

    until = np.where(came, arrivals + waits + services, 0).max(axis=0)
    until = np.maximum(until, sum(gaps))  # the page counts the minutes until the last call as well
    costs = weight * np.where(came, waits, 0).sum(axis=0) + until
    assert within_four_errors(costs, calling_cost(gaps, weight, shows))
    assert calling_cost(gaps, weight, shows) == pytest.approx(cost, abs=1e-4)


def test_each_sitter_waits_as_long_as_the_exact_recursion_says():
    gaps = (0.5, 0.7, 1.4, 1.1, 1.0)
    services = np.random.default_rng(6).exponential(size=(6, DAYS))
    exact, _ = sitters_waits(gaps)

    waits = waits_of(called(gaps), services)

    assert np.all(waits[0] == 0)
    for own, mean in list(zip(waits, exact, strict=True))[1:]:
        assert within_four_errors(own, mean)


# research s.2b: for two sitters the best gap is the quantile weight / (weight + 1) of the service (newsvendor), here a
# lognormal of mean 1 with sigma 0.4; then the second waits at all with chance 1 / (weight + 1).
@pytest.mark.parametrize(("weight", "gap"), [(0.25, 0.65925), (1, 0.92312), (4, 1.29259)])
def test_at_the_best_gap_the_second_of_two_waits_as_often_as_the_closed_form_says(weight, gap):
    services = np.random.default_rng(7).lognormal(-0.08, 0.4, size=(2, DAYS))
    assert gap == pytest.approx(stats.lognorm(0.4, scale=np.exp(-0.08)).ppf(weight / (weight + 1)), abs=1e-5)

    waits = waits_of(called([gap]), services)

    assert within_four_errors(waits[1] > 0, 1 / (weight + 1))


def test_long_waits_are_as_likely_as_on_the_exact_grid():
    # The chain of research s.5e: services of 18 minutes on average with a coefficient of variation of 0.25, each
    # rounded to a tenth of a minute so that the convolution on that grid is exact; sitters called every 20 minutes.
    spread = sqrt(np.log1p(0.25**2))
    service = stats.lognorm(spread, scale=18 * np.exp(-(spread**2) / 2))
    steps = np.diff(service.cdf((np.arange(0, 1001) - 0.5) / 10))
    grid = grid_waits(steps / steps.sum(), [200] * 19)
    drawn = np.random.default_rng(8).choice(len(steps), size=(20, DAYS), p=steps / steps.sum()) / 10

    # A tenth of all times, as a day must be shorter than the longest bath.
    waits = 10 * waits_of(called([2.0] * 19), drawn / 10)

    for number in (1, 4, 9, 19):
        assert within_four_errors(waits[number] > 10 + 1e-6, grid[number][101:].sum())


def many(chance, count, rate):
    """Arrivals of a Poisson stream, so many sitters on each day."""
    return np.cumsum(chance.exponential(1 / rate, size=(count, DAYS)), axis=0)


@pytest.mark.parametrize(("load", "count"), [(0.5, 90), (0.8, 400)])
def test_even_services_with_random_arrivals_wait_as_pollaczek_and_khinchine_say(load, count):
    # M/D/1; research s.2b: a mean wait of 0.5 and 2 services. A tenth of the unit, as in the day above.
    arrivals = many(np.random.default_rng(9), count, load / 0.1)

    waits = waits_of(arrivals, np.full(arrivals.shape, 0.1))[-1]

    assert within_four_errors(waits / 0.1, mean_wait(load, 1.0, 1.0))


def test_two_pairs_of_hands_are_waited_for_as_often_as_erlang_says():
    # M/M/2 at 1.5 arrivals a service, research s.2b: 9/14 wait at all, 9/7 services on average.
    chance = np.random.default_rng(10)
    arrivals = many(chance, 300, 15.0)

    waits = waits_of(arrivals, chance.exponential(0.1, size=arrivals.shape), hands=2)[-1] / 0.1

    assert within_four_errors(waits > 1e-9, float(must_wait(1.5, 2)))
    assert within_four_errors(waits > 2, wait_beyond(2.0, 1.5, 1.0, 2))
    assert within_four_errors(waits, 9 / 7)


def test_three_pairs_of_hands_are_waited_for_as_often_as_erlang_says():
    # M/M/3 at 2 arrivals a service, research s.2b: 4/9 wait at all.
    chance = np.random.default_rng(11)
    arrivals = many(chance, 200, 20.0)

    waits = waits_of(arrivals, chance.exponential(0.1, size=arrivals.shape), hands=3)[-1]

    assert within_four_errors(waits > 1e-9, 4 / 9)
