"""The site as Django's test client sees it, and its clock: fixtures for both apps."""

import pytest
import time_machine

from tests import builders


@pytest.fixture
def clock():
    """The traveller: `clock.move_to(...)` and `clock.shift(...)` change what the views take for now."""
    with time_machine.travel(builders.NOW, tick=False) as traveller:
        yield traveller


@pytest.fixture(autouse=True)
def clock_of_pages(request):
    """Views read the clock, so in their files (test_views*.py) it stands at NOW unless a test moves it."""
    if request.path.name.startswith("test_views"):
        request.getfixturevalue("clock")


@pytest.fixture
def photographer(client):
    """The client, signed in to the studio's own pages."""
    client.force_login(builders.an_operator())
    return client
