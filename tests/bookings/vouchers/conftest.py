"""Orders that a voucher can pay for, as many at once as a test wants."""

import pytest

from tests import builders


@pytest.fixture
def day():
    """Four can sit at once."""
    return builders.a_day(bench=builders.a_bench(operators=4, tank_places=4, sitters_at_once=4))


@pytest.fixture
def order(day):
    return builders.a_placed_order(day)
