"""The page that stops reminders, and the click of mail software that does the same.

Outside: RFC 8058 s.3 (from memory): a POST without cookies, as a form of either kind, never led on elsewhere.
"""

import pytest
from django.test import Client
from django.urls import reverse

from bookings.letters import unsubscribe as stop_links
from bookings.letters.services import reminders
from bookings.outbox.models import ReminderStop
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db


@pytest.fixture
def address():
    builders.a_studio()
    return reverse("stop_reminders", args=[stop_links.token("ines@example.org")])


@pytest.fixture
def stranger():
    """A client without a cookie, of which the forgery check asks what it asks of any browser."""
    return Client(enforce_csrf_checks=True)


def test_looking_at_the_page_stops_nothing(stranger, address):
    page = stranger.get(address)

    assert (page.status_code, ReminderStop.objects.count()) == (200, 0)
    assert "Stop reminders?" in page.content.decode()


@pytest.mark.parametrize("kind", ["multipart", "urlencoded"])
def test_one_click_stops_them_at_once(stranger, address, kind):
    if kind == "multipart":
        answer = stranger.post(address, {"List-Unsubscribe": "One-Click"})
    else:
        answer = stranger.post(
            address, "List-Unsubscribe=One-Click", content_type="application/x-www-form-urlencoded"
        )

    assert (answer.status_code, ReminderStop.objects.count()) == (200, 1)
    assert "No more reminders" in answer.content.decode()


def test_the_page_then_offers_to_have_them_again(stranger, address):
    stranger.post(address)

    page = stranger.post(address, {"again": "1"})

    assert ReminderStop.objects.count() == 0
    assert "Reminders come again" in page.content.decode()


def test_the_page_of_the_order_tells_the_photographer(photographer):
    order = builders.a_paid_order(builders.a_day())
    page = reverse("studio:order", args=[order.reference])
    before = photographer.get(page).content.decode()
    reminders.stop(token=stop_links.token("ines@example.org"), now=NOW)

    after = photographer.get(page).content.decode()

    assert "stopped reminders" not in before
    assert "The client stopped reminders on Friday 20 November 2026" in after
