"""An order to pay for by card, and a card service on this computer to pay at."""

import pytest

from tests import builders
from tests.bookings.cards.pages import site_with_cards


@pytest.fixture
def service(settings):
    with site_with_cards(settings) as service:
        yield service


@pytest.fixture
def order(day):
    return builders.a_placed_order(day)
