"""A headless Chromium, and the site on a port of this computer. The site's clock goes on from NOW."""

import os

import pytest
import time_machine
from django.test import Client, override_settings
from playwright.sync_api import expect, sync_playwright
from pytest_django.live_server_helper import LiveServer

from tests import builders, machines
from tests.bookings.cards import card_service
from tests.browser.windows import Window
from tests.builders import NOW

# No sandbox, for Chromium refuses to run as root in one; the rest keeps it from asking anybody anything.
ARGUMENTS = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]

# Nothing is put before its libraries: under faketime (tests/benchmarks/change_nights.py) it would show no page.
SURROUNDINGS = {name: value for name, value in os.environ.items() if name != "LD_PRELOAD"}

# Screens ask every few seconds, and a machine that runs all tests at once may miss one of their turns.
expect.set_options(timeout=15_000)


@pytest.fixture(scope="package")
def chromium():
    # Playwright keeps a loop running in this thread, beside which Django would refuse the tests a look at the rows.
    os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"] = "true"
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=machines.chromium(), args=ARGUMENTS, env=SURROUNDINGS
        )
        yield browser
        browser.close()
    del os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"]


@pytest.fixture(scope="package")
def site(django_db_setup):
    """The address of the practice studio; each test or module brings its own rows."""
    # Not pytest-django's fixture of that name, which empties the database after every test.
    # Cards are switched on, and nobody answers at the port "discard".
    cards = card_service.ON | {"CARD_API": "http://127.0.0.1:9"}
    with time_machine.travel(NOW, tick=True), override_settings(DEMO=True, **cards):
        server = LiveServer("localhost")
        yield server.url
        server.stop()


@pytest.fixture
def open_window(chromium, site):
    """A function that opens a window of a new visitor; at the end none of them may have anything to complain of."""
    opened = []

    def window(**how):
        opened.append(Window(chromium, site, **how))
        return opened[-1]

    yield window
    for each in opened:
        each.close()
        assert (each.strangers, each.complaints, each.broken) == ([], [], [])


def signed_in(site, operator):
    """The cookies of a browser in which the operator has signed in."""
    client = Client()
    client.force_login(operator)
    name, morsel = next(iter(client.cookies.items()))
    return [{"name": name, "value": morsel.value, "url": site}]


@pytest.fixture
def operator(transactional_db):
    return builders.an_operator()
