"""The site as Django's test client sees it. The clock stands at NOW unless a test moves it."""

import pytest
import time_machine

from tests import builders
from tests.builders import NOW


@pytest.fixture(autouse=True)
def clock():
    """The traveller: `clock.move_to(...)` and `clock.shift(...)` change what the views take for now."""
    with time_machine.travel(NOW, tick=False) as traveller:
        yield traveller


@pytest.fixture
def day():
    """A day with room for one sitter, so that no two begin at once, and every size for sale."""
    for name in builders.SIZES:
        builders.a_size(name)
    return builders.a_day(bench=builders.a_bench(sitters_at_once=1))


@pytest.fixture
def photographer(client):
    """The client, signed in to the studio's own pages."""
    client.force_login(builders.an_operator())
    return client
