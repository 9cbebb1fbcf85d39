"""Money that came by card goes back to the card, once for a form and no more than came."""

from uuid import uuid4

import pytest

from bookings.cards.models import Outcome
from bookings.errors import CardRefused
from bookings.orders.selectors.account import account
from bookings.payments.models import Payment
from tests.bookings.cards.worlds import DEPOSIT, a_page, given_back, paid, returned, take

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("service")]


def a_paid_page(order):
    page = a_page(order)
    take(paid())
    return page


def test_part_of_a_payment_goes_back_to_its_card_once(service, order):
    page, key = a_paid_page(order), uuid4()

    assert given_back(page, 1000, key=key) == Outcome.RETURNED
    assert given_back(page, 1000, key=key) == Outcome.KNOWN
    name = Payment.objects.get(amount=-1000).reference.removeprefix("card ")
    assert take(returned(refund=name, session="cs_1")) == Outcome.KNOWN

    assert service.asked[0][1]["payment_intent"] == "pi_1"
    assert account(order).paid == DEPOSIT - 1000
    assert [each.left for each in order.card_checkouts.received()] == [DEPOSIT - 1000]


def test_what_was_given_back_before_a_crash_is_entered_by_its_message(service, order):
    """The service has given back, and nothing was written here: the form sent again, and the message, are one entry."""
    page, key = a_paid_page(order), uuid4()
    take(returned(refund="re_1", session="cs_1"))

    assert given_back(page, 1000, key=key) == Outcome.KNOWN
    assert account(order).paid == DEPOSIT - 1000


def test_no_more_goes_back_than_came(service, order):
    unpaid = a_page(order, name="cs_0")
    page = a_paid_page(order)
    for source, amount in ((page, DEPOSIT + 1), (page, 0), (page, -5), (unpaid, 1)):
        with pytest.raises(CardRefused, match=r"^At most €"):
            given_back(source, amount)

    assert service.asked == []
