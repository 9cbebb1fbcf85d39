"""A day with room for as many orders as a test wants."""

import pytest

from tests.builders.invoices import broad_day


@pytest.fixture
def day():
    return broad_day()
