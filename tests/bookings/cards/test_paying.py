"""A page to pay on is opened once for a sum."""

from datetime import time, timedelta

import pytest

from bookings.cards.events import Kind
from bookings.cards.models import CardCheckout
from bookings.cards.selectors import Part, payable
from bookings.cards.services import paying as cards
from bookings.changes.services import sittings
from bookings.errors import CardServiceAway, NothingOwed, NotPlaced, OrderCancelled
from bookings.orders.selectors.account import account
from tests import builders
from tests.bookings.cards import card_service
from tests.bookings.cards.worlds import BACK_TO, DEPOSIT, paid, take, told
from tests.builders import NOW

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("service")]


def opened(order, part=Part.DEPOSIT, *, now=NOW):
    return cards.open_for_order(order_id=order.pk, part=part, back_to=BACK_TO, now=now)


@pytest.mark.parametrize(
    ("part", "amount", "text"),
    [(Part.DEPOSIT, DEPOSIT, "Deposit for sitting "), (Part.WHOLE, 8500, "Sitting ")],
    ids=["deposit", "whole"],
)
def test_a_page_is_opened_for_what_is_owed(service, order, part, amount, text):
    page = opened(order, part)

    facts = service.asked[0][1]
    assert (page.order, page.amount, page.currency) == (order, amount, "EUR")
    assert page.address == f"{card_service.PAGES}/pay/{page.session}"
    assert facts["line_items[0][price_data][product_data][name]"] == text + order.reference
    assert facts["client_reference_id"] == order.reference
    assert "ines" not in str(service.asked).lower()  # nothing about the person


@pytest.mark.parametrize("minutes", range(0, 10, 3))
def test_a_page_stays_open_longer_than_the_least_that_the_service_allows(order, minutes):
    now = NOW + timedelta(minutes=minutes, seconds=59)

    assert timedelta(minutes=35) <= opened(order, now=now).open_until - now <= timedelta(minutes=40)


def test_a_page_for_the_same_sum_is_taken_again_until_it_is_about_to_close(service, order):
    first = opened(order)

    assert opened(order, now=NOW + timedelta(minutes=20)) == first
    assert len(service.asked) == 1
    assert opened(order, Part.WHOLE) != first
    assert opened(order, now=NOW + timedelta(minutes=31)) != first


def test_a_form_sent_twice_at_once_opens_one_page(service, order):
    """Both have looked before either has written: the second finds the key of the first at the service."""
    first = opened(order)
    CardCheckout.objects.all().delete()

    assert opened(order, now=NOW + timedelta(seconds=2)).session == first.session


@pytest.mark.parametrize("kind", [Kind.EXPIRED, Kind.FAILED])
def test_a_page_that_is_over_is_not_taken_again(order, kind):
    first = opened(order)
    take(told(kind, session=first.session))

    assert opened(order).session != first.session


def test_what_cannot_be_paid_is_refused(order):
    held = builders.a_held_order(order.sitting.day, at=time(12))
    with pytest.raises(NotPlaced, match="cannot be paid"):
        opened(held)
    builders.pay(order, DEPOSIT)
    with pytest.raises(NothingOwed):
        opened(order)

    sittings.cancel(order_id=order.pk, now=NOW)

    with pytest.raises(OrderCancelled, match="nothing to pay"):
        opened(order)


def test_a_service_that_is_away_leaves_no_row(service, order):
    service.status = 500

    with pytest.raises(CardServiceAway):
        opened(order)

    assert not CardCheckout.objects.exists()


def test_deposit_and_everything_can_be_paid_by_card_and_then_the_rest(settings, order):
    assert payable(account(order)) == {Part.DEPOSIT: DEPOSIT, Part.WHOLE: 8500}
    builders.pay(order, DEPOSIT)
    assert payable(account(order)) == {Part.WHOLE: DEPOSIT}

    settings.CARD_KEY = ""

    assert payable(account(order)) == {}


def test_a_payment_is_awaited_until_its_page_was_told_of(order):
    assert not order.card_checkouts.awaited()
    page = opened(order)
    assert order.card_checkouts.awaited()

    take(paid(session=page.session))

    assert not order.card_checkouts.awaited()
