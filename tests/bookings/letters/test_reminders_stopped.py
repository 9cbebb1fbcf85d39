"""Reminders that somebody wants no longer: stopped for an address, for good, without keeping that address."""

from datetime import time

import pytest

from bookings.changes.services import sittings
from bookings.errors import LinkInvalid
from bookings.letters import unsubscribe as stop_links
from bookings.letters.selectors.validity import stopped_at
from bookings.letters.services import reminders
from bookings.outbox.models import ReminderStop
from tests import builders
from tests.bookings.letters.rounds import DAY_BEFORE, HOUR, a_promised_order, letters, sent_kinds
from tests.builders import NOW

pytestmark = pytest.mark.django_db


@pytest.fixture
def day():
    return builders.a_day()


@pytest.fixture
def promised(day):
    return a_promised_order(day)


class TestStopping:
    @pytest.fixture
    def token(self, promised):
        return stop_links.token(promised.client.email)

    def test_an_address_that_stopped_them_gets_none_and_everything_else(self, promised, token):
        reminders.stop(token=token, now=NOW)

        told = [sent_kinds(now=DAY_BEFORE)]
        sittings.cancel(order_id=promised.pk, now=DAY_BEFORE + HOUR)

        assert [*told, sent_kinds(now=DAY_BEFORE + HOUR)] == [[], ["cancelled"]]
        assert letters(promised, "day_before")[0].withdrawn_at == DAY_BEFORE

    def test_it_holds_for_every_order_of_that_address_however_it_is_written(self, day, promised, token):
        other = builders.a_placed_order(day, at=time(12), email="INES@Example.org")

        reminders.stop(token=token, now=NOW)

        assert stopped_at(other) == NOW

    def test_another_address_is_still_reminded(self, day, token):
        other = builders.a_placed_order(day, at=time(12), email="abel@example.org")

        reminders.stop(token=token, now=NOW)

        assert stopped_at(other) is None

    def test_stopping_twice_keeps_the_first_time(self, promised, token):
        for hours in (0, 1):
            reminders.stop(token=token, now=NOW + hours * HOUR)

        assert stopped_at(promised) == NOW

    def test_they_can_be_wanted_again(self, promised, token):
        reminders.stop(token=token, now=NOW)

        reminders.allow(token=token)

        assert sent_kinds(now=DAY_BEFORE) == ["day_before"]

    def test_it_holds_after_the_secret_was_changed(self, promised, token, settings):
        reminders.stop(token=token, now=NOW)

        settings.SECRET_KEY_FALLBACKS, settings.SECRET_KEY = [settings.SECRET_KEY], "another " * 8

        assert stopped_at(promised) == NOW
        assert stop_links.resolve(token) == stop_links.digests("ines@example.org")[1]

    def test_nothing_kept_of_it_names_the_address(self, promised, token):
        reminders.stop(token=token, now=NOW)

        [kept] = ReminderStop.objects.values_list("digest", flat=True)
        assert "ines" not in kept + token
        assert len(kept) == 64

    def test_a_link_that_was_not_made_here_stops_nothing(self, token):
        with pytest.raises(LinkInvalid, match="not complete"):
            reminders.stop(token=token[:-1], now=NOW)

        assert not ReminderStop.objects.exists()
