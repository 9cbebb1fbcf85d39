"""What those on the waiting list are written, and who is written no more."""

import pytest
from django.urls import reverse

from bookings.changes.services import sittings
from bookings.letters.services import sending as notices
from bookings.waitlist import links as waiting_links
from bookings.waitlist import services as waiting
from bookings.waitlist.selectors import State
from tests import builders
from tests.bookings.waitlist.worlds import (
    TWO_HOURS,
    a_day_of_two_places,
    again,
    both_sold,
    join,
    state,
)
from tests.builders import NOW
from tests.reading.letters import flowing, parsed

pytestmark = pytest.mark.django_db


@pytest.fixture
def day():
    return a_day_of_two_places()


@pytest.fixture
def full(day):
    return both_sold(day)


def test_the_letters_say_what_is_offered_until_when_and_how_to_leave(day, full, settings):
    settings.SITE_ADDRESS = "https://rooms.example.org"
    place = join(day)
    sittings.cancel(order_id=full[1].pk, now=NOW)
    waiting.offer_freed(now=NOW)

    joined, offer = (flowing(parsed(place.notices.get(kind=kind))) for kind in ("waiting", "offer"))

    assert "on the waiting list for Saturday 28 November 2026, for a start between 10:00 and 12:00." in joined
    assert "Whoever asked first is offered first." in joined
    assert "When: Saturday 28 November 2026 at 11:00 (Europe/Lisbon, UTC+0)" in offer
    # 09:00 UTC and two hours, on Lisbon's clock in winter.
    assert "Kept for you until: Friday 20 November 2026 at 11:00 (Europe/Lisbon, UTC+0)" in offer
    assert "The whole order comes to €85.00, tax included. A deposit of €42.50 is asked for" in offer
    for letter in (joined, offer):
        assert f"https://rooms.example.org{waiting_links.path(place)}" in letter


def test_an_offer_is_not_written_of_once_it_has_lapsed(day, full, mailoutbox):
    place = join(day)
    sittings.cancel(order_id=full[1].pk, now=NOW)
    waiting.offer_freed(now=NOW)

    notices.send_due(now=NOW + TWO_HOURS)

    assert place.notices.get(kind="offer").withdrawn_at == NOW + TWO_HOURS


def test_who_is_struck_off_is_forgotten_and_not_written_to(day, full, mailoutbox):
    place = join(day)

    waiting.strike(place_id=place.pk, now=NOW)
    notices.send_due(now=NOW)

    assert state(place) == State.STRUCK
    assert (again(place).name, again(place).email) == ("", "")
    assert [letter for letter in mailoutbox if "ottilie" in letter.to[0]] == []


def test_an_offer_that_cannot_be_sent_is_put_before_the_owner(client, day, full):
    place = join(day)
    place.notices.update(given_up_at=NOW, tries=10)
    client.force_login(builders.an_operator())

    page = client.get(reverse("studio:day", args=[day.pk])).content.decode()

    assert "The letter “On the waiting list” could not be sent after 10 tries:" in page
    assert reverse("studio:waiting_list", args=[day.pk]) in page
