"""The plates' own pages as the photographer's browser asks for them."""

import pytest
import time_machine

from plates.bench.models import PlateSlot
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


@pytest.fixture
def slot():
    """The one plate of a sitting at ten."""
    order = builders.a_paid_order(builders.a_day(), name="Ines Madrugada")
    return PlateSlot.objects.select_related("job").get(job=order.sitting.bench_job_id)
