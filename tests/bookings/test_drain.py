"""All work that waits in rows: whatever was cut short is found again by its state."""

from datetime import time, timedelta

import pytest
from django.core import mail as outbox

from bookings import drain as due
from bookings.orders.models import Order
from bookings.outbox.models import Notice
from bookings.payments.models import Payment
from bookings.payments.services import ledger as payments
from plates.bench.models import BenchJob
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

HOUR = timedelta(hours=1)
LAPSED = NOW + timedelta(hours=48)


class Crash(BaseException):
    """The process ends here."""


@pytest.fixture
def day():
    """A day of a bench with hands enough and room for one sitter, so that no two begin at once."""
    return builders.a_day(bench=builders.a_bench(operators=2, tank_places=2, sitters_at_once=1))


@pytest.fixture
def cut_short(day, monkeypatch):
    """A placed order whose deposit was entered just before the process ended."""

    def crash(**_):
        raise Crash

    order = builders.a_placed_order(day)
    with monkeypatch.context() as ending:
        ending.setattr(payments, "confirm_if_covered", crash)
        with pytest.raises(Crash):
            builders.pay(order, 4250)
    assert Payment.objects.get().amount == 4250
    return order


def confirmed_at(order):
    return BenchJob.objects.get(pk=order.sitting.bench_job_id).confirmed_at


def test_a_paid_sitting_that_a_crash_left_unconfirmed_is_confirmed_and_told(cut_short):
    due.drain(now=NOW + HOUR)

    assert confirmed_at(cut_short) == NOW + HOUR
    assert Notice.objects.get(kind="confirmed").sent_at == NOW + HOUR


def test_a_paid_sitting_whose_place_was_sold_after_the_crash_gets_a_new_time(day, cut_short):
    builders.a_paid_order(day, now=LAPSED)

    due.drain(now=LAPSED)

    assert confirmed_at(cut_short) is None
    assert Order.objects.get(pk=cut_short.pk).needs_new_time
    assert Notice.objects.get(kind="new_time").sent_at == LAPSED


def test_draining_twice_does_nothing_twice(day, cut_short):
    builders.made_plates(builders.a_paid_order(day, at=time(12)))
    due.drain(now=NOW + HOUR)
    sent, rows = len(outbox.outbox), Notice.objects.count()

    again = due.drain(now=NOW + 2 * HOUR)

    assert again == 0
    assert (len(outbox.outbox), Notice.objects.count()) == (sent, rows)


def test_a_client_whose_plates_became_ready_is_told_by_the_next_drain(day):
    order = builders.a_paid_order(day)
    due.drain(now=NOW)
    builders.made_plates(order)

    sent = due.drain(now=NOW + HOUR)

    assert sent == 1
    assert Notice.objects.get(order=order, kind="ready").sent_at == NOW + HOUR


def test_an_unpaid_order_is_not_confirmed_by_draining(day):
    order = builders.a_placed_order(day)

    due.drain(now=NOW + HOUR)

    assert confirmed_at(order) is None
    assert not Order.objects.get(pk=order.pk).needs_new_time


def test_an_order_that_waits_for_a_new_time_is_not_put_back_by_draining(day):
    """Its client has been asked for another time, and may have made other plans for the old one."""
    order = builders.a_placed_order(day)
    other = builders.a_paid_order(day, now=LAPSED)
    builders.pay(order, 4250, now=LAPSED)
    BenchJob.objects.filter(pk=other.sitting.bench_job_id).update(released_at=LAPSED)

    due.drain(now=LAPSED + HOUR)

    assert confirmed_at(order) is None


def test_orders_that_no_money_came_for_take_no_lock(day, django_assert_num_queries):
    builders.a_placed_order(day)

    with django_assert_num_queries(1):
        confirmed = payments.confirm_covered(now=NOW + HOUR)

    assert confirmed == 0


def test_every_kind_of_work_is_done_once_and_letters_are_counted(monkeypatch):
    done = []
    table = [
        due.Work(work.name, lambda now, name=work.name: done.append(name) or len(done)) for work in due.WORK
    ]
    monkeypatch.setattr(due, "WORK", table)

    sent = due.drain(now=NOW)

    assert done == [work.name for work in table]
    assert sent == done.index(due.LETTERS.name) + 1
