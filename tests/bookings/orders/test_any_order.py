"""Whatever is done in whatever order: what is promised can be made, and the money adds up.

Hypothesis chooses what happens next on one day of one bench, and how much time goes by in between.
"""

from datetime import UTC, date, datetime, time, timedelta
from uuid import uuid4

import pytest
from django.db import transaction
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    Bundle,
    RuleBasedStateMachine,
    consumes,
    initialize,
    invariant,
    multiple,
    rule,
    run_state_machine_as_test,
)

from bookings import drain as due
from bookings.changes.services import sittings
from bookings.checkout.services import booking
from bookings.errors import BookingsError
from bookings.orders.models import Order
from bookings.orders.selectors.account import account
from bookings.orders.services import placing
from bookings.orders.wishes import Wish
from bookings.payments.models import Method, Payment
from bookings.payments.services import ledger as payments
from plates import capacity
from plates.bench.models import BenchJob, PlateSlot
from plates.errors import PlatesError
from plates.ledger.services import events as ledger
from plates.schedule.selectors.openings import promised_jobs
from tests import builders

OPENS = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
STARTS = st.sampled_from([OPENS + timedelta(minutes=minutes) for minutes in (0, 30, 60)])
WISHES = st.lists(st.sampled_from(["quarter", "half", "whole"]), min_size=1, max_size=2)


class Studio(RuleBasedStateMachine):
    """A short day with room for one sitter and little room in the wash, two days ahead at first.

    Few starts, short holds and long waits: places are soon wanted by several, and lapse before they are paid for.
    """

    orders = Bundle("orders")

    @initialize(target=orders, starts=st.lists(STARTS, min_size=3, max_size=5))
    def open(self, starts):
        self.undone = transaction.atomic()
        self.undone.__enter__()
        self.now = OPENS - timedelta(days=2)
        self.entered = {}
        self.promised = set()
        self.refusals = []
        builders.a_studio(deposit_hours=1)
        self.sizes = {name: builders.a_size(name) for name in ("quarter", "half", "whole")}
        bench = builders.a_bench(operators=2, tank_places=2, wash_places=4, sitters_at_once=1, tolerance=0)
        self.day = builders.a_day(
            on=date(2026, 11, 28),
            bench=bench,
            closes=time(11, 30),
            racks_empty_by=time(12, 45),
            start_every=30,
        )
        # Each is placed when the hold before it has run out, so that several may pay for one place.
        booked = []
        for starts_at in starts:
            booked.append(self.book(starts_at, ["quarter"]))
            self.wait(65)
        return multiple(*booked)

    def teardown(self):
        if hasattr(self, "undone"):
            transaction.set_rollback(True)
            self.undone.__exit__(None, None, None)

    def attempt(self, act, **how):
        """Do it now; nothing may go wrong but what is refused in words."""
        try:
            return act(now=self.now, **how)
        except (PlatesError, BookingsError) as refusal:
            self.refusals.append(str(refusal))
            return None

    @rule(target=orders, starts_at=STARTS, names=WISHES)
    def hold(self, starts_at, names):
        wish = Wish(sizes=[self.sizes[name] for name in names])
        how = {"day_id": self.day.pk, "starts_at": starts_at, "wish": wish, "submission_key": uuid4()}
        order = self.attempt(booking.hold_sitting, **how)
        return order.pk if order else multiple()

    @rule(target=orders, starts_at=STARTS, names=WISHES)
    def book(self, starts_at, names):
        order = self.hold(starts_at, names)
        if order != multiple():
            self.place(order, None)
        return order

    @rule(order=orders, another=st.none() | STARTS)
    def place(self, order, another):
        details = placing.Details(name="Ines Madrugada", email="ines@example.org", phone="", consents={})
        self.attempt(booking.place_order, order_id=order, details=details, another_start=another)

    @rule(order=orders, share=st.sampled_from([2, 4, 4, 8]), twice=st.booleans())
    def pay(self, order, share, twice):
        amount = max(1, account(Order.objects.get(pk=order)).gross * share // 8)
        self.enter(order, amount, twice=twice)

    @rule(order=orders)
    def refund(self, order):
        self.enter(order, -1000, twice=False)

    def enter(self, order, amount, *, twice):
        how = {"amount": amount, "method": Method.CASH, "reference": str(uuid4())}
        for _ in range(1 + twice):
            entered = self.attempt(payments.record, order_id=order, **how)
        if entered:
            self.entered.setdefault(order, []).append(amount)

    @rule(order=orders, starts_at=STARTS)
    def move(self, order, starts_at):
        self.attempt(sittings.move, order_id=order, day_id=self.day.pk, starts_at=starts_at)

    @rule(order=orders)
    def drop(self, order):
        self.attempt(booking.drop_hold, order_id=order)

    @rule(order=consumes(orders))
    def cancel(self, order):
        if self.attempt(sittings.cancel, order_id=order):
            self.promised.discard(order)

    @rule(order=orders)
    def pour(self, order):
        slot = PlateSlot.objects.filter(
            job__in=Order.objects.filter(pk=order).values("sitting__bench_job")
        ).first()
        self.attempt(ledger.pour, slot_id=slot.pk, operator=None)

    @rule()
    def drain(self):
        due.drain(now=self.now)

    @rule(minutes=st.sampled_from([10, 25, 65, 65, 12 * 60]))
    def wait(self, minutes):
        self.now += timedelta(minutes=minutes)

    @invariant()
    def what_is_promised_can_be_made(self):
        day = self.day.bench_day
        booked = [job.as_booked() for job in promised_jobs(day=day, now=self.now)]
        assert capacity.problems(day.bench.as_capacity(), day.as_capacity(), booked) == ()

    @invariant()
    def the_ledger_holds_what_was_entered_and_every_account_adds_up(self):
        for order in Order.objects.select_related("terms").prefetch_related("lines", "payments"):
            entered = self.entered.get(order.pk, [])
            assert [payment.amount for payment in order.payments.all()] == entered
            money = account(order)
            charged = sum(line.unit_amount for line in order.lines.all())
            assert money.gross == (charged if order.cancelled_at is None else order.kept)
            assert (money.paid, money.owed) == (sum(entered), money.gross - sum(entered))
        assert Payment.objects.count() == sum(map(len, self.entered.values()))

    @invariant()
    def who_paid_the_deposit_is_promised_a_place_or_asked_for_a_new_time(self):
        open_orders = Order.objects.filter(placed_at__isnull=False, cancelled_at=None)
        at_hand = open_orders.select_related("terms", "sitting__bench_job")
        for order in at_hand.prefetch_related("lines", "payments", "notices"):
            job = order.sitting.bench_job
            told = {notice.kind for notice in order.notices.all()}
            assert not (job.confirmed_at and order.needs_new_time)
            assert "confirmed" in told if job.confirmed_at else True
            if not account(order).deposit_owed:
                assert job.confirmed_at or (order.needs_new_time and "new_time" in told)

    @invariant()
    def a_promise_is_kept_until_it_is_cancelled(self):
        confirmed = Order.objects.filter(sitting__bench_job__confirmed_at__isnull=False)
        kept = set(
            confirmed.filter(cancelled_at=None, sitting__bench_job__released_at=None).values_list(
                "pk", flat=True
            )
        )
        assert self.promised <= kept
        self.promised = kept

    @invariant()
    def nobody_is_promised_a_place_who_never_paid_a_deposit_and_no_cancelled_order_keeps_one(self):
        for order in Order.objects.select_related("sitting__bench_job"):
            most = max((sum(self.entered[order.pk][:count]) for count in self.counts(order)), default=0)
            if order.sitting.bench_job.confirmed_at:
                assert most >= account(order).deposit
            if order.cancelled_at:
                assert order.sitting.bench_job.released_at

    def counts(self, order):
        """The lengths that the order's ledger has had."""
        return range(1, len(self.entered.get(order.pk, [])) + 1)

    @invariant()
    def every_refusal_is_a_sentence(self):
        assert all(refusal.endswith(".") for refusal in self.refusals)

    @invariant()
    def no_hold_outlives_its_start(self):
        assert all(job.held_until <= job.starts_at for job in BenchJob.objects.all())


@pytest.mark.django_db
def test_whatever_happens_promises_can_be_kept_and_the_money_adds_up():
    run_state_machine_as_test(Studio, settings=settings(max_examples=6, stateful_step_count=30))
