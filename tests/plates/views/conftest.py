"""The plates' own pages as the photographer's browser asks for them."""

import pytest
import time_machine

from tests import builders
from tests.builders import NOW


@pytest.fixture(autouse=True)
def clock():
    with time_machine.travel(NOW, tick=False) as traveller:
        yield traveller


@pytest.fixture
def photographer(client):
    client.force_login(builders.an_operator())
    return client
