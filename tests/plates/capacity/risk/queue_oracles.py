"""Waiting in exact numbers: what risk and spacing are held against. No engine, no luck, no solver.

Each function is a textbook result written out anew: Erlang's formulas, Pollaczek and Khinchine's, and the recursion of
appointments with exponential services. Times are in any one unit; rates are per that unit.
"""

from collections.abc import Sequence
from fractions import Fraction
from math import exp

import numpy as np

Number = float | Fraction


def blocked(load: Number, places: int) -> Number:
    """Erlang B: the share of callers who find all places taken; load = arrivals a service time."""
    share = load * 0 + 1
    for place in range(1, places + 1):
        share = load * share / (place + load * share)
    return share


def must_wait(load: Number, places: int) -> Number:
    """Erlang C: the share who wait at all where nobody is turned away; load below places."""
    share = blocked(load, places)
    return places * share / (places - load * (1 - share))


def wait_beyond(minutes: float, arrivals: float, services: float, places: int) -> float:
    """M/M/c: the share who wait longer than so many minutes."""
    return float(must_wait(arrivals / services, places)) * exp(-(places * services - arrivals) * minutes)


def mean_wait(arrivals: Number, service: Number, service_squared: Number) -> Number:
    """Pollaczek-Khinchine: mean wait before one server from the mean of the service and of its square."""
    return arrivals * service_squared / (2 * (1 - arrivals * service))


def _gone(gap: float, most: int) -> np.ndarray:
    """[before, after]: chances that so many are left of so many after a gap; services are exponential of mean 1."""
    chances = np.zeros((most + 1, most + 1))
    poisson = np.cumprod([exp(-gap), *(gap / count for count in range(1, most + 1))])
    for before in range(most + 1):
        chances[before, before:0:-1] = poisson[:before]
        chances[before, 0] = 1 - poisson[:before].sum()
    return chances


def _one_more(inside: np.ndarray, shows: float) -> np.ndarray:
    return (1 - shows) * inside + shows * np.roll(inside, 1)


def sitters_waits(gaps: Sequence[float], shows: float = 1.0) -> tuple[list[float], float]:
    """S(n,p)/M/1: mean wait of each sitter who comes, and mean minutes until all are served.

    Sitters are called so many gaps apart, come with chance `shows`, and are served one by one for an exponential
    time of mean 1. Exact: an exponential service forgets how long it has run, so the number inside says everything.
    """
    inside = np.zeros(len(gaps) + 2)
    inside[0] = 1.0
    numbers = np.arange(len(inside))
    waits = [0.0]
    for gap in gaps:
        inside = _one_more(inside, shows) @ _gone(gap, len(gaps) + 1)
        waits.append(float(inside @ numbers))
    return waits, float(sum(gaps) + _one_more(inside, shows) @ numbers)


def calling_cost(gaps: Sequence[float], weight: float, shows: float = 1.0) -> float:
    """weight * all waits of those who come + the minutes until all are served (research page s.2b)."""
    waits, until = sitters_waits(gaps, shows)
    return weight * shows * sum(waits) + until


def grid_waits(service: np.ndarray, gaps: Sequence[int]) -> list[np.ndarray]:
    """Lindley's W' = max(0, W + S - gap) on a grid: for each sitter the chances of waiting 0, 1, 2, ... steps.

    service: chances of a service of 0, 1, 2, ... steps. gaps: whole steps. Nothing is cut off, so it is exact.
    """
    waits = [np.ones(1)]
    for gap in gaps:
        total = np.convolve(waits[-1], service)
        waits.append(np.concatenate([[total[: gap + 1].sum()], total[gap + 1 :]]))
    return waits
