"""The appointment oracles: closed forms, a table computed elsewhere, every schedule of a small day.

The model is S(n,p)/M/1: exponential services of mean 1, sitters called so many gaps apart who come with chance p.
The published tables of this model could not be read; the figures marked "research" are those of the research page
s.2b, computed there by a recursion of its own. The closed forms do not rest on it.
"""

from math import exp, log

import numpy as np
import pytest
from scipy import stats
from scipy.optimize import minimize

from tests.plates.capacity.risk.queue_oracles import (
    calling_cost,
    grid_waits,
    sitters_waits,
    slot_cost,
    slot_parts,
    slot_schedules,
)


def best(sitters, weight, shows=1.0):
    """The gaps of least cost; squares keep them from going below nought."""
    first = np.full(sitters - 1, 1.0)
    found = minimize(lambda roots: calling_cost(roots**2, weight, shows), first, method="BFGS")
    return found.x**2, found.fun


@pytest.mark.parametrize("weight", [0.1, 1.0, 4.0, 9.0])
def test_two_sitters_are_best_called_at_the_logarithm(weight):
    # research s.2b, and by hand: E W = exp(-x), the rest follows by one derivative: x = ln(1 + cw/cs).
    gaps, _ = best(2, weight)

    assert gaps == pytest.approx([log(1 + weight)], abs=1e-4)


# research s.2b, closed form x = max(0, ln(p (1 + p cw/cs))): (weight, shows, gap).
@pytest.mark.parametrize(
    ("weight", "shows", "gap"),
    [(1, 0.75, 0.27193), (1, 0.9, 0.53649), (4, 0.5, 0.40547), (4, 0.75, 1.09861), (4, 0.9, 1.42070),
     (9, 0.9, 2.10291), (1, 0.5, 0.0)],
)  # fmt: skip
def test_two_sitters_who_may_not_come_are_called_closer(weight, shows, gap):
    assert max(0.0, log(shows * (1 + shows * weight))) == pytest.approx(gap, abs=5e-6)
    assert best(2, weight, shows)[0] == pytest.approx([gap], abs=1e-3)


@pytest.mark.parametrize(("ratio", "gap"), [(0.25, 0.65925), (1, 0.92312), (4, 1.29259)])
def test_any_service_of_two_sitters_has_its_quantile_as_gap(ratio, gap):
    # research s.2b: x = F^-1(cw / (cw + ci)) for waiting and idle time, here lognormal of s = .4 and mean 1;
    # scipy has F, and the least cost is found again on a grid of 1/500 by Lindley's step.
    service = stats.lognorm(0.4, scale=exp(-0.08))
    edges = np.arange(0, 12 * 500 + 1)
    chances = np.diff(service.cdf(np.concatenate([[0], (edges + 0.5) / 500])))

    def cost(steps):
        wait = grid_waits(chances, [steps])[1] @ np.arange(len(edges) - steps)
        idle = wait - chances @ edges + steps
        return ratio * wait + idle

    assert service.ppf(ratio / (ratio + 1)) == pytest.approx(gap, abs=5e-6)
    assert min(range(1, 1500), key=cost) / 500 == pytest.approx(gap, abs=0.003)


# research s.2b: (sitters, weight, shows, least cost, gaps).
TABLE = [
    (3, 1, 1, 4.63972, ".8890 1.0527"),
    (5, 1, 1, 8.76252, ".9746 1.4225 1.4004 1.1136"),
    (10, 1, 1, 19.38709, "1.0060 1.5092 1.5895 1.6111 1.6100 1.5908 1.5455 1.4417 1.1253"),
    (10, 0.1, 1, 12.26608, ".1686 .6439 .8259 .8926 .9122 .9025 .8651 .7863 .5947"),
    (10, 4, 1, 26.97476, "1.8855 2.2083 2.2442 2.2530 2.2536 2.2478 2.2303 2.1757 1.9058"),
    (10, 1, 0.9, 17.87802, ".8451 1.3608 1.4448 1.4676 1.4663 1.4462 1.3991 1.2931 .9779"),
    (10, 1, 0.75, 15.40399, ".5760 1.1210 1.2106 1.2352 1.2339 1.2123 1.1628 1.0549 .7373"),
]


@pytest.mark.parametrize(("sitters", "weight", "shows", "cost", "gaps"), TABLE)
def test_the_table_of_best_gaps_is_found_again(sitters, weight, shows, cost, gaps):
    # The cost is flat at its least, so it is held closer than the gaps are.
    tabled = [float(gap) for gap in gaps.split()]
    found, least = best(sitters, weight, shows)

    assert calling_cost(tabled, weight, shows) == pytest.approx(cost, abs=1e-4)
    assert least == pytest.approx(cost, abs=1e-4)
    assert found == pytest.approx(tabled, abs=1e-2)


def test_best_gaps_rise_and_fall_and_shrink_with_those_who_stay_away():
    # research s.2b: the dome, and that a lower p shrinks every gap.
    sure, _ = best(10, 1.0)
    unsure, _ = best(10, 1.0, 0.9)
    top = int(np.argmax(sure))

    assert list(sure[: top + 1]) == sorted(sure[: top + 1])
    assert list(sure[top:]) == sorted(sure[top:], reverse=True)
    assert all(unsure < sure)


def test_the_recursion_is_what_a_hundred_thousand_played_days_give():
    # numpy draws the days and Lindley's step plays them; nothing of the recursion is used. Four standard errors.
    chance, gaps, shows = np.random.default_rng(5), [0.9, 1.4, 1.1], 0.8
    come = chance.random((100_000, 4)) < shows
    work = chance.exponential(size=(100_000, 4)) * come
    wait = np.zeros(100_000)
    exact, until = sitters_waits(gaps, shows)
    for number, gap in enumerate(gaps):
        wait = np.maximum(0, wait + work[:, number] - gap)
        assert abs(wait.mean() - exact[number + 1]) < 4 * wait.std() / 100_000**0.5
    ends = wait + work[:, 3] + sum(gaps)
    assert abs(ends.mean() - until) < 4 * ends.std() / 100_000**0.5


# research s.2b: six sitters in six slots of the mean service (the model of Kaandorp & Koole 2007, Health Care
# Management Science 10, 217-229, of which only the abstract was read): weight -> the best schedule, its cost.
SLOTS = {
    0.05: ((3, 1, 1, 1, 0, 0), 2.40998),
    0.1: ((2, 1, 1, 1, 1, 0), 2.73321),
    0.2: ((2, 1, 1, 1, 1, 0), 3.36119),
    0.3: ((2, 1, 1, 1, 1, 0), 3.98917),
    0.5: ((1, 1, 1, 1, 1, 1), 4.86830),
    1: ((1, 1, 1, 1, 1, 1), 6.94850),
    2: ((1, 1, 1, 1, 1, 1), 11.10891),
    4: ((1, 1, 1, 0, 1, 2), 18.96019),
}


def test_the_best_of_all_462_slot_schedules_are_those_of_the_page():
    every = list(slot_schedules(6, 6))
    found = {weight: min(every, key=lambda one: slot_cost(one, weight)) for weight in SLOTS}

    assert len(every) == len(set(every)) == 462
    assert found == {weight: schedule for weight, (schedule, _) in SLOTS.items()}
    costs = [slot_cost(schedule, weight) for weight, schedule in found.items()]
    assert costs == pytest.approx([cost for _, cost in SLOTS.values()], abs=5e-6)


def test_two_at_the_opening_is_best_for_a_middling_weight_as_published():
    # The abstract of Kaandorp & Koole 2007: "for certain combinations of parameters the well-known Bailey-Welch rule is
    # found to be the optimal"; that rule (Bailey 1952) calls two at the opening and then one after another.
    rule = (2, 1, 1, 1, 1, 0)

    assert [weight for weight, (schedule, _) in SLOTS.items() if schedule == rule] == [0.1, 0.2, 0.3]


def test_slots_and_gaps_are_two_views_of_one_day():
    # One sitter in each slot is a day of gaps of 1; a seventh would wait for what is left after the last slot.
    waits, _ = sitters_waits([1.0] * 6)

    assert slot_parts((1,) * 6) == pytest.approx((sum(waits[:6]), waits[6]), abs=1e-12)
