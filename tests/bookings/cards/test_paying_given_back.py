"""Money that came by card goes back to the card, once for a form and no more than came."""

from uuid import uuid4

import pytest

from bookings.cards.models import Outcome
from bookings.errors import CardRefused
from bookings.orders.selectors.account import account
from bookings.payments.models import Payment
from tests import builders
from tests.bookings.cards import card_service
from tests.bookings.cards.worlds import DEPOSIT, a_page, given_back, paid, returned, take

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def service(settings):
    with card_service.switched_on(settings) as service:
        yield service


@pytest.fixture
def order():
    return builders.a_placed_order(builders.a_day())


def a_paid_page(order):
    page = a_page(order)
    take(paid())
    return page


def test_part_of_a_payment_goes_back_to_its_card(service, order):
    page = a_paid_page(order)

    assert given_back(page, 1000) == Outcome.RETURNED
    assert service.asked[0][1]["payment_intent"] == "pi_1"
    assert account(order).paid == DEPOSIT - 1000
    assert [each.left for each in order.card_checkouts.received()] == [DEPOSIT - 1000]


def test_a_form_sent_twice_gives_back_once(service, order):
    page, key = a_paid_page(order), uuid4()
    given_back(page, 3000, key=key)

    assert given_back(page, 3000, key=key) == Outcome.KNOWN
    assert account(order).paid == DEPOSIT - 3000


def test_the_message_about_a_giving_back_from_here_enters_nothing_more(service, order):
    page = a_paid_page(order)
    given_back(page, 1000)
    name = Payment.objects.get(amount=-1000).reference.removeprefix("card ")

    assert take(returned(refund=name, session="cs_1")) == Outcome.KNOWN
    assert account(order).paid == DEPOSIT - 1000


def test_what_was_given_back_before_a_crash_is_entered_by_its_message(service, order):
    """The service has given back, and nothing was written here: the form sent again, and the message, are one entry."""
    page, key = a_paid_page(order), uuid4()
    take(returned(refund="re_1", session="cs_1"))

    assert given_back(page, 1000, key=key) == Outcome.KNOWN
    assert account(order).paid == DEPOSIT - 1000


@pytest.mark.parametrize("amount", [DEPOSIT + 1, 0, -5])
def test_no_more_goes_back_than_came(service, order, amount):
    page = a_paid_page(order)

    with pytest.raises(CardRefused, match=r"^At most €42\.50 of this payment can be given back\.$"):
        given_back(page, amount)

    assert service.asked == []


def test_nothing_goes_back_by_a_page_that_nobody_paid_on(order):
    with pytest.raises(CardRefused, match=r"^At most €0\.00 of this payment can be given back\.$"):
        given_back(a_page(order), 1)
