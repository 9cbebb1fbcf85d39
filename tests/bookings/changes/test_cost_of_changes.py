"""What it costs to cancel or to move, by the terms of the order. Amounts by hand: 85.00 a plate, 42.50 deposit.

By the builders' terms all is free until 48 hours before the start; here a late change costs a fifth of the deposit.
"""

from datetime import UTC, datetime, timedelta

import pytest

from bookings.changes.services import sittings
from bookings.day.selectors.alerts import open_troubles
from bookings.errors import CostChanged, InvoiceRefused, TooMuchBack
from bookings.invoices.services import issuing as invoices
from bookings.orders.models import CancelCause, LineKind, Order
from bookings.orders.selectors.account import account, cancelling, moving
from bookings.payments.models import Payment
from bookings.pricing.models import Terms
from plates.bench.models import BenchJob
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
NOON = TEN + timedelta(hours=2)
FREE = TEN - timedelta(hours=48)  # the last free moment
LATE = FREE + timedelta(seconds=1)


@pytest.fixture
def day():
    day = builders.a_day(bench=builders.a_bench(operators=2, tank_places=2, sitters_at_once=1))
    Terms.objects.update(late_move_bp=2000)
    return day


@pytest.fixture
def order(day):
    return builders.a_paid_order(day)


def stored(order):
    return Order.objects.get(pk=order.pk)


def cancelled(order, *, now=LATE, cause=CancelCause.CLIENT, **more):
    return sittings.cancel(order_id=order.pk, now=now, cause=cause, **more)


def moved(order, day, *, now=LATE, **more):
    return sittings.move(order_id=order.pk, day_id=day.pk, starts_at=NOON, now=now, **more)


def late_lines(order):
    lines = stored(order).lines.filter(kind=LineKind.LATE_MOVE)
    return list(lines.values_list("text", "quantity", "unit_amount", "tax_rate_bp", "position"))


@pytest.mark.parametrize(
    ("cause", "now", "kept"),
    [
        (CancelCause.CLIENT, FREE, 0),
        (CancelCause.CLIENT, LATE, 4250),
        (CancelCause.STUDIO, LATE, 0),
    ],
    ids=["in time", "too late", "by the studio"],
)
def test_what_is_kept_is_fixed_when_an_order_is_cancelled(order, cause, now, kept):
    cancelled(order, cause=cause, now=now)

    found = stored(order)
    assert (found.kept, found.cancel_cause) == (kept, cause)
    assert (account(found).gross, account(found).deposit, account(found).overpaid) == (kept, 0, 4250 - kept)


def test_what_is_paid_beyond_the_deposit_is_not_kept(order):
    builders.pay(order, 4250)

    cancelled(order)

    assert (account(stored(order)).gross, account(stored(order)).overpaid) == (4250, 4250)


def test_what_was_fixed_stays_whatever_is_given_back_afterwards(order):
    builders.pay(order, 4250)
    cancelled(order)

    builders.pay(order, -4250)

    assert (stored(order).kept, account(stored(order)).owed) == (4250, 0)


def test_an_order_cancelled_before_sums_were_fixed_goes_on_by_the_rule(order):
    cancelled(order)
    Order.objects.update(kept=None, cancel_cause="")

    assert account(stored(order)).gross == 4250


def test_looking_at_what_a_cancellation_would_cost_changes_nothing(order):
    left = cancelling(stored(order), cause=CancelCause.CLIENT, now=LATE)

    assert (left.kept, left.returned) == (4250, 0)
    assert stored(order).cancelled_at is None


def test_a_cancellation_that_costs_more_by_now_is_not_done(order):
    with pytest.raises(
        CostChanged, match=r"^By the terms this now costs €42\.50, not €0\.00 as was shown before\."
    ):
        cancelled(order, shown=0)

    assert stored(order).cancelled_at is None
    assert BenchJob.objects.get().released_at is None


def test_a_late_change_of_time_is_a_line_of_the_order(order, day):
    moved(order, day, shown=850)

    assert late_lines(order) == [("Late change of time", 1, 850, 2300, 2)]
    assert (account(stored(order)).gross, account(stored(order)).deposit) == (9350, 4250)


def test_a_second_late_change_costs_the_same_again(order, day):
    moved(order, day)

    sittings.move(order_id=order.pk, day_id=day.pk, starts_at=TEN, now=LATE + timedelta(hours=2))

    assert [line[2:] for line in late_lines(order)] == [(850, 2300, 2), (850, 2300, 3)]
    assert stored(order).sitting.bench_job.confirmed_at == NOW


@pytest.mark.parametrize(
    "how", [{"now": FREE}, {"by_client": False}], ids=["in the free time", "for the studio"]
)
def test_a_change_costs_nothing(order, day, how):
    moved(order, day, **how)

    assert late_lines(order) == []
    assert account(stored(order)).gross == 8500


def test_a_place_that_still_waits_for_its_deposit_is_changed_freely(day):
    order = builders.a_placed_order(day, now=TEN - timedelta(hours=4))

    moved(order, day, now=TEN - timedelta(hours=3))

    assert late_lines(order) == []


def test_what_a_change_would_cost_is_known_before(order):
    assert moving(stored(order), now=FREE).price == 0
    assert moving(stored(order), now=LATE).price == 850
    assert moving(stored(order), now=LATE).free_until == FREE


def test_a_change_that_costs_more_by_now_is_not_done(order, day):
    with pytest.raises(CostChanged, match=r"now costs €8\.50, not €0\.00"):
        moved(order, day, shown=0)

    assert stored(order).sitting.bench_job.starts_at == TEN
    assert late_lines(order) == []


def test_nothing_is_added_to_an_order_that_was_invoiced(order, day):
    invoices.issue(order_id=order.pk, now=NOW)

    with pytest.raises(InvoiceRefused, match=r"^This order was invoiced already, so nothing can be added"):
        moved(order, day)

    assert stored(order).sitting.bench_job.starts_at == TEN
    assert late_lines(order) == []


def test_a_late_change_does_not_raise_what_is_kept_of_the_deposit(order, day):
    builders.pay(order, 4250)
    moved(order, day)

    cancelled(order, now=TEN)

    assert stored(order).kept == 4250


def test_no_more_is_given_back_than_was_paid(order):
    with pytest.raises(
        TooMuchBack,
        match=r"^€42\.51 is more than was paid for this order: €42\.50 at most can be given back\.$",
    ):
        builders.pay(order, -4251)

    assert list(Payment.objects.values_list("amount", flat=True)) == [4250]


def test_money_to_be_given_back_is_among_the_troubles_until_it_has_gone(order, day):
    other = builders.a_paid_order(day, at=NOON, amount=8500)
    builders.pay(other, 100)
    cancelled(order, now=FREE)
    assert open_troubles(now=NOW).to_give_back == [(order, 4250), (other, 100)]

    builders.pay(order, -4250)
    builders.pay(other, -100)

    assert not open_troubles(now=NOW)


def test_money_that_is_kept_is_no_trouble(order):
    cancelled(order)

    assert not open_troubles(now=NOW)
