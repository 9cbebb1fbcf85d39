"""A telephone in the dark tent, on a day with three plates to make; its clock and the studio's move together."""

from datetime import time

import pytest
import time_machine
from django.urls import reverse

from tests import builders
from tests.browser.conftest import signed_in
from tests.browser.tent.steps import TEN


@pytest.fixture
def clock(site):
    """The studio's clock, which the test moves together with that of the telephone."""
    with time_machine.travel(TEN, tick=True) as traveller:
        yield traveller


@pytest.fixture
def day(transactional_db, clock):
    """Two plates of one sitting at ten, one of another at a quarter past eleven."""
    day = builders.a_day()
    builders.a_paid_order(day, at=time(10), sizes=("quarter", "quarter"))
    builders.a_paid_order(day, at=time(11, 15), sizes=("half",), name="Wren Achterberg")
    return day.bench_day


@pytest.fixture
def tent(open_window, site, operator, day):
    """A function that opens the tent on a telephone of its own."""

    def opened(**how):
        window = open_window(width=360, cookies=signed_in(site, operator), **({"scripts": True} | how))
        if how.get("scripts", True):
            window.page.clock.install()
        window.page.goto(reverse("plates:tent", args=[day.pk]))
        return window

    return opened
