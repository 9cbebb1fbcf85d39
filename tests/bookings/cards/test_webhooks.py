"""What the card service tells is entered once, whatever it is; what does not add up is put before the owner."""

from datetime import time, timedelta

import pytest

from bookings.cards.events import Kind
from bookings.cards.models import CardCheckout, CardNotice, Outcome
from bookings.cards.selectors import to_be_looked_at
from bookings.cards.services import webhooks as card_messages
from bookings.changes.services import sittings
from bookings.day.selectors.alerts import open_troubles
from bookings.orders.models import Order
from bookings.orders.selectors.account import account
from bookings.payments.models import Payment
from tests import builders
from tests.bookings.cards.worlds import DEPOSIT, a_page, ledger, noted, paid, reason, take, told
from tests.builders import NOW

pytestmark = pytest.mark.django_db

LAPSED = NOW + timedelta(hours=49)


@pytest.fixture
def order(order):
    a_page(order)
    return order


def state(order):
    """(promised, needs a new time) as stored."""
    stored = Order.objects.get(pk=order.pk)
    return stored.sitting.bench_job.confirmed_at is not None, stored.needs_new_time


def test_a_deposit_paid_by_card_promises_the_sitting_of_its_page_once(day, order):
    a_page(builders.a_placed_order(day, at=time(12)), name="cs_2")

    assert take(paid()) == Outcome.PAID
    assert take(paid(), now=NOW + timedelta(hours=1)) == Outcome.KNOWN
    assert take(paid(event="evt_9")) == Outcome.KNOWN

    assert (ledger(), noted()) == ([("card cs_1", DEPOSIT, order.pk)], {"evt_1": "paid", "evt_9": "known"})
    assert state(order) == (True, False)
    payment = Payment.objects.get()
    assert (payment.method, payment.note) == ("card", "pi_1")
    assert CardNotice.objects.get(event="evt_1").payment == payment


def test_a_page_with_a_long_name_has_a_reference_that_fits(order):
    name = "cs_test_" + "a" * 58
    CardCheckout.objects.update(session=name)

    take(paid(session=name))

    assert len(Payment.objects.get().reference) <= 64
    assert Payment.objects.get().reference == card_messages.reference_of(name=name)


@pytest.mark.parametrize("kind", [Kind.FAILED, Kind.EXPIRED, Kind.OTHER])
def test_what_moves_no_money_is_noted(order, kind):
    assert take(told(kind)) == Outcome.NOTED
    assert ledger() == []


@pytest.mark.parametrize("free", [True, False])
def test_money_after_a_lapse_takes_the_place_anew_or_else_the_order_needs_a_new_time(day, order, free):
    if not free:
        builders.a_paid_order(day, now=LAPSED)

    assert take(paid(), now=LAPSED) == Outcome.PAID
    assert state(order) == (free, not free)
    assert account(order).paid == DEPOSIT


def test_money_for_a_cancelled_order_is_entered_and_to_be_given_back(order):
    sittings.cancel(order_id=order.pk, now=NOW)

    assert take(paid()) == Outcome.LOOK
    assert len(ledger()) == 1
    assert reason().startswith("The money came for an order that was cancelled.")


def test_another_sum_than_was_asked_or_owed_is_entered_and_looked_at(order):
    a_page(order, name="cs_2", amount=8500)

    assert take(paid(amount=4000)) == Outcome.LOOK
    assert take(paid(event="evt_2", session="cs_2", money="pi_2", amount=8500)) == Outcome.LOOK

    assert account(order).paid == 4000 + 8500
    assert reason() == "€40.00 came where €42.50 was asked. What came was entered."
    assert reason("evt_2") == "€40.00 more came than was owed. It was entered, and is to be given back."


@pytest.mark.parametrize(
    ("facts", "sentence"),
    [
        ({"currency": "USD"}, "A card paid US$42.50 where €42.50 was asked. Nothing was entered."),
        ({"amount": None}, "A card paid an unknown sum where €42.50 was asked. Nothing was entered."),
        ({"amount": 0}, "A card paid €0.00 where €42.50 was asked. Nothing was entered."),
        (
            {"session": "cs_other"},
            "A card paid €42.50 on a page that is not known here (reference none). Nothing was entered.",
        ),
    ],
    ids=["another currency", "a sum nobody can write", "nothing", "a page nobody opened"],
)
def test_what_cannot_be_entered_is_looked_at(order, facts, sentence):
    assert take(paid(**facts)) == Outcome.LOOK
    assert (ledger(), reason()) == ([], sentence)


def test_a_second_sum_for_one_page_is_not_entered(order):
    take(paid())

    assert take(paid(event="evt_9", amount=9000)) == Outcome.LOOK
    assert len(ledger()) == 1
    assert reason("evt_9").startswith("The ledger already holds a different payment under 'card cs_1'.")


def test_a_contested_payment_is_looked_at_and_names_its_order(order):
    take(paid())

    assert take(told(Kind.DISPUTED, event="evt_2", session="")) == Outcome.LOOK
    assert reason("evt_2").startswith(f"The holder of the card contests €42.50 of order {order.reference}")
    assert len(ledger()) == 1


def test_what_has_to_be_looked_at_is_among_the_troubles_until_it_was(order):
    take(paid(currency="USD"))
    notice = CardNotice.objects.get()
    assert open_troubles(now=NOW).cards == [notice]

    card_messages.mark_looked_at(notice_id=notice.pk, now=NOW)
    card_messages.mark_looked_at(notice_id=notice.pk, now=LAPSED)

    assert not open_troubles(now=NOW)
    assert not to_be_looked_at()
    assert CardNotice.objects.get().looked_at == NOW
