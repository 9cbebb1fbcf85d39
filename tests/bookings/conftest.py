"""A day on which one order can be booked, for the pages of bookings."""

import pytest

from tests import builders
from tests.reading.site import clock, clock_of_pages, photographer

__all__ = ["clock", "clock_of_pages", "day", "photographer"]


@pytest.fixture
def day():
    """A day with room for one sitter, so that no two begin at once, and every size for sale."""
    for name in builders.SIZES:
        builders.a_size(name)
    return builders.a_day(bench=builders.a_bench(sitters_at_once=1))
