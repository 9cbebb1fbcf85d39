"""The card service is asked about pages of which it told nothing. Nothing leaves this computer."""

from datetime import timedelta

import pytest

from bookings import drain as due
from bookings.cards.models import CardCheckout, Outcome
from bookings.cards.selectors import Part
from bookings.cards.services import paying as cards
from bookings.cards.services import polling as card_asking
from tests.bookings.cards import card_service
from tests.bookings.cards.worlds import BACK_TO, DEPOSIT, ledger, noted, paid, take
from tests.builders import NOW

pytestmark = pytest.mark.django_db

CLOSED = NOW + timedelta(minutes=45)


@pytest.fixture
def page(service, order):
    page = cards.open_for_order(order_id=order.pk, part=Part.DEPOSIT, back_to=BACK_TO, now=NOW)
    service.asked.clear()
    return page


def asked_about(service):
    return [name for name, *_ in service.asked]


def test_money_of_which_no_message_came_is_entered_by_the_drain_and_once(service, page, order):
    service.paid_pages["cs_1"] = card_service.session()

    due.drain(now=CLOSED)

    assert noted() == {"asked-cs_1": Outcome.PAID}
    assert take(paid(), now=CLOSED) == Outcome.KNOWN
    assert ledger() == [("card cs_1", DEPOSIT, order.pk)]


@pytest.mark.parametrize("message_came", [False, True])
def test_a_page_is_asked_about_once_when_it_has_closed_and_no_message_came(service, page, message_came):
    card_asking.ask(now=CLOSED - timedelta(seconds=1))
    assert asked_about(service) == []
    if message_came:
        take(paid())

    assert card_asking.ask(now=CLOSED) == 0
    card_asking.ask(now=CLOSED + timedelta(days=1))

    assert asked_about(service) == ["cs_1"] * (not message_came)


def test_a_silent_service_is_asked_again_ten_minutes_later(service, page, order):
    service.status = 500
    card_asking.ask(now=CLOSED)
    service.status, service.paid_pages["cs_1"] = 200, card_service.session()
    service.asked.clear()

    card_asking.ask(now=CLOSED + timedelta(minutes=9))
    assert asked_about(service) == []
    card_asking.ask(now=CLOSED + timedelta(minutes=10))

    assert ledger() == [("card cs_1", DEPOSIT, order.pk)]


def test_an_answer_that_cannot_be_read_is_left_and_stops_nobody(service, page, caplog):
    service.paid_pages["cs_1"] = card_service.session() | {"amount_total": "much"}

    card_asking.ask(now=CLOSED)

    assert "This answer of the card service cannot be read." in caplog.text
    assert CardCheckout.objects.get().ask_at is None


def test_without_cards_nobody_is_asked(service, page, settings):
    settings.CARD_KEY = ""

    assert card_asking.ask(now=CLOSED) == 0
