"""Which orders wait for their invoice. The day closes at 18:00 in Lisbon, which is UTC in winter."""

from datetime import UTC, datetime, time, timedelta

import pytest

from bookings.changes.services import sittings
from bookings.invoices.selectors.runs import ready_to_invoice, uninvoiced
from bookings.invoices.services import runs as invoice_runs
from plates.bench.models import Stage
from tests import builders
from tests.builders import NOW
from tests.builders.invoices import a_credit_note, broad_day, issued, made_order

pytestmark = pytest.mark.django_db

CLOSED = datetime(2026, 11, 28, 18, tzinfo=UTC)


@pytest.fixture
def day():
    return broad_day()


def found(now=NOW):
    return list(ready_to_invoice(now=now))


def test_an_order_waits_once_every_plate_is_ready_or_handed_over(day):
    order = builders.a_paid_order(day, amount=17000, sizes=["quarter", "quarter"])
    slots = order.sitting.bench_job.slots.all()
    builders.made_plate(slots[0], Stage.HANDED_OVER, NOW)
    assert found() == []

    builders.made_plate(slots[1], Stage.READY, NOW)

    assert found() == [order]


def test_an_order_whose_plates_were_never_finished_waits_once_its_day_is_over(day):
    order = builders.a_paid_order(day)

    assert found(CLOSED - timedelta(seconds=1)) == []
    assert found(CLOSED) == [order]


def test_neither_held_nor_lapsed_nor_cancelled_nor_invoiced_orders_wait(day):
    builders.a_held_order(day)
    builders.a_placed_order(day)
    sittings.cancel(order_id=builders.a_paid_order(day).pk, now=NOW)
    issued(made_order(day, number=4))

    assert found(CLOSED + timedelta(days=3)) == []


def test_a_cancelled_order_of_which_something_is_kept_waits(day):
    order = builders.a_paid_order(day)
    an_hour_before = order.sitting.bench_job.starts_at - timedelta(hours=1)

    sittings.cancel(order_id=order.pk, now=an_hour_before)

    assert [(row.order, row.gross) for row in uninvoiced(now=an_hour_before)] == [(order, 4250)]


def test_an_order_waits_again_once_its_whole_invoice_was_taken_back_but_not_a_part(day):
    invoice = issued(made_order(day, sizes=["quarter", "quarter"]))
    lines = list(invoice.lines.all())
    a_credit_note(invoice, lines=lines[:1])
    assert found() == []

    a_credit_note(invoice, lines=lines[1:])

    assert found() == [invoice.order]


def test_what_waits_is_told_with_what_it_comes_to_until_a_run_takes_care_of_it(day):
    late = made_order(day, number=4, sizes=["half"])
    early = made_order(day, paid=8500)
    told = [(row.order, row.gross, row.owed) for row in uninvoiced(now=NOW)]
    assert told == [(early, 8500, 0), (late, 12500, 6250)]

    invoice_runs.start(order_ids=[early.pk], by_mail=False, asked_by=builders.an_operator(), now=NOW)

    assert found() == [late]


def test_more_orders_take_no_more_queries(day, django_assert_num_queries):
    for count in (1, 4):
        for _ in range(count):
            builders.a_paid_order(day, at=time(12))
        with django_assert_num_queries(3):
            assert len(uninvoiced(now=CLOSED)) in (1, 5)
