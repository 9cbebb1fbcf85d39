"""The messages of the card service in any order, up to three times each, early or late, end in the same ledger.

And so does a crash after any statement, once the message is told again (quality-bars.md s.2.6).
"""

from datetime import timedelta

import pytest
from django.db import connection, transaction
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bookings.cards.events import Kind
from bookings.cards.models import CardNotice, Outcome
from bookings.orders.models import Order
from bookings.outbox.models import Notice
from tests import builders
from tests.bookings.cards.worlds import DEPOSIT, a_page, ledger, noted, paid, returned, take, told
from tests.builders import NOW

pytestmark = pytest.mark.django_db

MESSAGES = [
    told(Kind.EXPIRED, event="page 0 expired", session="cs_0", money=""),
    paid(event="deposit paid"),
    paid(event="deposit paid, told by another event"),
    paid(event="rest paid", session="cs_2", money="pi_2"),
    returned(event="part given back", refund="re_1"),
    returned(event="part given back, told by another event", refund="re_1"),
    returned(event="part given back from here", refund="re_2", amount=500, session="cs_1"),
    returned(event="that failed", refund="re_2", amount=500, kind=Kind.NOT_RETURNED),
    told(Kind.DISPUTED, event="contested", session=""),
]
ENTERED = [
    ("card cs_1", DEPOSIT), ("card cs_2", DEPOSIT), ("card re_1", -1000), ("card re_2", -500),
    ("card re_2 undone", 500),
]  # fmt: skip


@pytest.fixture
def order():
    order = builders.a_placed_order(builders.a_day(bench=builders.a_bench(sitters_at_once=1)))
    for name in ("cs_0", "cs_1", "cs_2"):
        a_page(order, name=name)
    return order


class Undone:
    """A block whose rows are taken back at its end, so that one order serves every example."""

    def __enter__(self):
        self.block = transaction.atomic()
        self.block.__enter__()

    def __exit__(self, *raised):
        transaction.set_rollback(True)
        self.block.__exit__(*raised)


@st.composite
def tellings(draw):
    """Every message one to three times, in any order, at times that go on: up to four days later."""
    told_often = [message for message in MESSAGES for _ in range(draw(st.integers(1, 3)))]
    in_order = draw(st.permutations(told_often))
    hours = sorted(draw(st.lists(st.integers(0, 96), min_size=len(in_order), max_size=len(in_order))))
    return [(message, NOW + timedelta(hours=hour)) for message, hour in zip(in_order, hours, strict=True)]


@settings(max_examples=12, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(telling=tellings())
def test_any_order_and_any_repetition_end_in_the_same_ledger(order, telling):
    with Undone():
        for message, now in telling:
            take(message, now=now)

        assert ledger() == [(reference, amount, order.pk) for reference, amount in ENTERED]
        assert [each.left for each in order.card_checkouts.received()] == [DEPOSIT - 1000, DEPOSIT]
        assert sorted(noted()) == sorted(message.event for message in MESSAGES)
        assert list(noted().values()).count(Outcome.PAID) == 2
        waiting = CardNotice.objects.filter(outcome=Outcome.LOOK, payment=None)
        assert list(waiting.values_list("event", flat=True)) == ["contested"]


class Crash(Exception):
    """The process is gone."""


class CrashAfter:
    """Crash once, when so many statements have changed something; what is undone because of it comes through.

    A statement that only reads is left out: a crash after it is one after the change before it.
    """

    def __init__(self, statements):
        self.statements, self.crashed, self.seen = statements, False, 0

    def __call__(self, execute, sql, params, many, context):
        answer = execute(sql, params, many, context)
        self.seen += not sql.startswith("SELECT")
        if self.seen == self.statements and not self.crashed:
            self.crashed = True
            raise Crash
        return answer


def taken_with_a_crash(message, statements):
    """Take a message with a crash after so many statements; whether there were so many."""
    crash = CrashAfter(statements)
    try:
        with connection.execute_wrapper(crash):
            take(message)
    except Crash:
        # On the site no transaction is open around a message, so there is none that the crash would undo.
        transaction.set_rollback(False)
    return crash.crashed


def end(order):
    """What there is in the end, whatever happened on the way."""
    stored = Order.objects.select_related("sitting__bench_job").get(pk=order.pk)
    letters = sorted(Notice.objects.filter(order=order).values_list("kind", flat=True))
    return ledger(), noted(), stored.sitting.bench_job.confirmed_at is not None, letters


def test_a_crash_after_any_change_is_made_good_when_the_message_is_told_again(order):
    take(returned(event="given back before"))
    message = paid(event="deposit paid")
    with Undone():
        take(message)
        expected = end(order)

    statements, crashed = 0, True
    while crashed:
        statements += 1
        with Undone():
            crashed = taken_with_a_crash(message, statements)
            take(message)
            assert end(order) == expected, f"after statement {statements}"

    assert expected[0] == [("card cs_1", DEPOSIT, order.pk), ("card re_1", -1000, order.pk)]
    assert expected[2]
    assert statements > 20
