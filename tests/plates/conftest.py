"""A sitting of one plate, for the pages of plates."""

import pytest

from plates.bench.models import PlateSlot
from tests import builders
from tests.reading.site import clock, clock_of_pages, photographer

__all__ = ["clock", "clock_of_pages", "photographer", "slot"]


@pytest.fixture
def slot():
    """The one plate of a sitting at ten."""
    order = builders.a_paid_order(builders.a_day(), name="Ines Madrugada")
    return PlateSlot.objects.select_related("job").get(job=order.sitting.bench_job_id)
