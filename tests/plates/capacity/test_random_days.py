"""A slice of tests/benchmarks/days.py: what gates 0 to 2 decide on random days, against a longer search of
another kind."""

import pytest

from tests.benchmarks.days import KINDS, Tally, run

REQUESTS = 18


@pytest.mark.parametrize(("kind", "first"), [(kind, first) for kind in KINDS for first in range(0, 10, 5)])
def test_no_random_request_is_refused_wrongly_and_every_day_sold_is_sound(kind, first):
    tally = Tally()
    for seed in range(1000 + first, 1005 + first):
        run(tally, seed, KINDS[kind], REQUESTS)

    assert (tally.unsound, tally.wrong) == (0, 0)
    assert tally.by["unknown"] <= 2
    assert tally.by["gate 1 yes"] > 20
    assert tally.by["gate 2 yes"] + tally.by["gate 2 no"] > 5
