"""What the card service tells of money that went back is entered once, also when it is told before the payment."""

from importlib import import_module

import pytest
from django.apps import apps

from bookings import drain as due
from bookings.cards.events import Kind
from bookings.cards.models import CardNotice, Outcome
from bookings.cards.selectors import to_be_looked_at
from bookings.cards.services import webhooks as card_messages
from bookings.orders.selectors.account import account
from tests import builders
from tests.bookings.cards.worlds import (
    DEPOSIT,
    a_page,
    ledger,
    noted,
    paid,
    reason,
    returned,
    take,
    told,
)
from tests.builders import NOW

pytestmark = pytest.mark.django_db


@pytest.fixture
def order(order):
    a_page(order)
    return order


def test_money_given_back_at_the_card_service_is_one_negative_entry(order):
    take(paid())

    assert take(returned()) == Outcome.RETURNED
    assert take(returned(event="evt_3")) == Outcome.KNOWN
    assert ledger() == [("card cs_1", DEPOSIT, order.pk), ("card re_1", -1000, order.pk)]
    assert [(each.returned, each.left) for each in order.card_checkouts.received()] == [(1000, 3250)]


def test_more_given_back_than_ever_came_is_entered_and_looked_at(order):
    take(paid())
    builders.pay(order, -DEPOSIT)

    assert take(returned(amount=DEPOSIT)) == Outcome.LOOK
    assert reason("evt_2") == "€42.50 more went back for this order than came. It was entered: ask for it."
    assert sum(order.payments.values_list("amount", flat=True)) == -DEPOSIT


def test_what_was_given_back_before_it_was_known_waits_for_the_payment(order):
    assert (take(returned()), ledger()) == (Outcome.WAITING, [])
    assert [notice.sentence.partition(".")[0] for notice in to_be_looked_at()] == [
        "Money was given back for a payment that is not known here"
    ]

    take(paid())

    assert ledger() == [("card cs_1", DEPOSIT, order.pk), ("card re_1", -1000, order.pk)]
    assert (noted(), reason("evt_2")) == ({"evt_1": "paid", "evt_2": "returned"}, "")
    assert [each.left for each in order.card_checkouts.received()] == [DEPOSIT - 1000]


def test_what_still_waits_is_entered_by_the_drain(order):
    take(paid())
    late = told(Kind.RETURNED, event="evt_2", amount=1000, refund="re_1", session="")
    CardNotice.objects.create(
        event="evt_2", kind=late.kind, money="pi_1", refund="re_1", amount=1000, currency="EUR", happened_at=NOW,
        received_at=NOW, outcome=Outcome.WAITING,
    )  # fmt: skip

    due.drain(now=NOW)

    assert (account(order).paid, noted()["evt_2"]) == (DEPOSIT - 1000, "returned")


def test_neither_what_was_looked_at_nor_another_currency_is_entered(order):
    take(returned(event="evt_9", refund="re_9"))
    card_messages.mark_looked_at(notice_id=CardNotice.objects.get().pk, now=NOW)
    take(paid())

    assert take(returned(currency="USD")) == Outcome.LOOK
    assert reason("evt_2") == "Money was given back in another currency than it came. Nothing was entered."
    assert len(ledger()) == 1


def test_a_giving_back_that_failed_is_taken_back_and_looked_at(order):
    take(paid())
    take(returned())

    assert take(returned(event="evt_3", kind=Kind.NOT_RETURNED)) == Outcome.LOOK
    assert account(order).paid == DEPOSIT
    assert reason("evt_3").startswith("The card service could not give this back after all.")
    assert [each.left for each in order.card_checkouts.received()] == [DEPOSIT]


def test_an_old_row_that_waited_by_its_sentence_waits_by_its_outcome(order):
    """Rows of before 2026-12 said it in words that another wording would have lost."""
    take(returned())
    migration = import_module("bookings.migrations.0002_card_notices_waiting")
    migration.say_it_again(apps, None)
    CardNotice.objects.create(
        event="evt_9", kind="other", happened_at=NOW, received_at=NOW, outcome=Outcome.LOOK, reason="Look."
    )

    migration.name_the_waiting(apps, None)

    assert noted() == {"evt_2": "waiting", "evt_9": "look"}
