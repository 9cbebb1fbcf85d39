"""A stall that keeps a line, at ten in the morning of its day."""

import pytest

from bookings.walkups.services import line
from tests import builders
from tests.bookings.walkups.asking import TEN


@pytest.fixture
def stall(day, clock):
    """The day with a line, at ten in the morning."""
    clock.move_to(TEN)
    return line.open_or_close(day_id=day.pk, keeps=True)


@pytest.fixture
def photographer(client, stall):
    """Signed in on the day itself: a session of the week before has run out."""
    client.force_login(builders.an_operator())
    return client
