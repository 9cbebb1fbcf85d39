"""Letters that time makes due before a sitting: found by the state of the rows, and true when they go."""

from datetime import timedelta

import pytest

from bookings import drain as due
from bookings.changes.services import sittings
from bookings.letters.services import reminders
from bookings.letters.services import sending as notices
from bookings.orders.models import Client
from bookings.outbox.models import NoticeKind
from plates.bench.models import PlateSlot
from plates.ledger.services import events as ledger
from tests import builders
from tests.bookings.letters.rounds import (
    DAY_BEFORE,
    HOUR,
    MINUTE,
    STARTS,
    a_promised_order,
    a_round,
    letters,
    sent_kinds,
)
from tests.builders import NOW

pytestmark = pytest.mark.django_db


@pytest.fixture
def day():
    return builders.a_day()


@pytest.fixture
def promised(day):
    return a_promised_order(day)


class TestADayBefore:
    @pytest.mark.parametrize(
        ("now", "kinds"),
        [
            (DAY_BEFORE - MINUTE, []),
            (DAY_BEFORE, ["day_before"]),
            (STARTS - MINUTE, ["day_before"]),  # nobody looked for most of a day
            (STARTS, []),
        ],
        ids=["too early", "a day before", "long missed", "too late"],
    )
    def test_a_promised_sitting_is_told_of_within_its_last_day(self, promised, now, kinds):
        assert sent_kinds(now=now) == kinds

    def test_it_is_told_once(self, promised):
        told = [sent_kinds(now=DAY_BEFORE + hours * HOUR) for hours in (0, 1, 2)]

        assert told == [["day_before"], [], []]

    def test_a_sitting_that_is_only_held_is_not(self, day):
        order = builders.a_placed_order(day, now=DAY_BEFORE - 30 * HOUR)

        a_round(DAY_BEFORE + HOUR)

        assert letters(order, "day_before") == []

    def test_who_was_confirmed_within_that_day_needs_no_reminding(self, day):
        order = builders.a_paid_order(day, now=DAY_BEFORE + HOUR)

        assert sent_kinds(now=DAY_BEFORE + 2 * HOUR) == ["confirmed"]
        assert letters(order, "day_before") == []

    def test_a_moved_sitting_is_told_of_anew(self, promised):
        a_round(DAY_BEFORE)
        later = builders.a_day(
            on=builders.SATURDAY + timedelta(days=7), bench=promised.sitting.day.bench_day.bench
        )

        sittings.move(
            order_id=promised.pk, day_id=later.pk, starts_at=STARTS + timedelta(days=7), now=DAY_BEFORE + HOUR
        )

        assert sent_kinds(now=DAY_BEFORE + timedelta(days=6)) == ["confirmed"]
        assert sent_kinds(now=DAY_BEFORE + timedelta(days=7)) == ["day_before"]

    @pytest.mark.parametrize("change", ["cancelled", "moved", "begun"])
    def test_one_that_waits_is_withdrawn_when_it_is_no_longer_true(self, promised, change):
        reminders.queue_due(now=DAY_BEFORE)
        if change == "cancelled":
            sittings.cancel(order_id=promised.pk, now=DAY_BEFORE)
        elif change == "moved":
            day = promised.sitting.day
            sittings.move(order_id=promised.pk, day_id=day.pk, starts_at=STARTS + 2 * HOUR, now=DAY_BEFORE)
        else:
            ledger.pour(slot_id=PlateSlot.objects.get().pk, operator=None, now=DAY_BEFORE)

        notices.send_due(now=DAY_BEFORE + MINUTE)

        [letter] = letters(promised, "day_before")
        assert (letter.sent_at, letter.withdrawn_at) == (None, DAY_BEFORE + MINUTE)


class TestTheDepositThatIsMissing:
    # The place is held for 48 hours from NOW; its client was asked for the deposit three minutes after NOW.
    @pytest.mark.parametrize(
        ("hours", "kinds"), [(35, []), (36, ["deposit_missing"]), (47, ["deposit_missing"]), (48, [])]
    )
    def test_it_is_asked_for_once_more_before_the_hold_runs_out(self, day, hours, kinds):
        builders.a_placed_order(day)
        a_round(NOW + HOUR)

        assert sent_kinds(now=NOW + hours * HOUR) == kinds

    def test_not_when_it_has_come(self, promised):
        assert sent_kinds(now=NOW + 40 * HOUR) == []

    def test_not_when_it_comes_before_the_letter_goes(self, day):
        order = builders.a_placed_order(day)
        a_round(NOW + HOUR)
        reminders.queue_due(now=NOW + 40 * HOUR)
        builders.pay(order, 4250, now=NOW + 40 * HOUR)

        notices.send_due(now=NOW + 40 * HOUR)

        assert letters(order, "deposit_missing")[0].withdrawn_at == NOW + 40 * HOUR

    def test_a_short_hold_asks_no_second_time(self, day):
        builders.a_studio(deposit_hours=12)
        order = builders.a_placed_order(day)

        told = [sent_kinds(now=NOW + minutes * MINUTE) for minutes in (3, 360, 719)]

        assert told == [["deposit_due"], [], []]
        assert letters(order, "deposit_missing") == []


def test_the_drain_does_it(promised):
    assert due.drain(now=DAY_BEFORE) == 1


def test_a_client_without_an_address_is_not_looked_at_again_and_again(promised):
    Client.objects.update(email="")

    assert sent_kinds(now=DAY_BEFORE) == []


def test_looking_costs_two_queries_when_nothing_is_due(promised, django_assert_num_queries):
    with django_assert_num_queries(2):
        assert reminders.queue_due(now=NOW + HOUR) == []


def test_without_a_studio_nobody_is_reminded(db):
    assert reminders.queue_due(now=NOW) == []


def test_a_confirmation_that_waited_is_overtaken_by_the_next_one(day):
    order = builders.a_paid_order(day)
    sittings.move(order_id=order.pk, day_id=day.pk, starts_at=STARTS + HOUR, now=NOW)

    notices.send_due(now=NOW)

    first, second = letters(order, NoticeKind.CONFIRMED)
    assert (first.withdrawn_at, second.sent_at) == (NOW, NOW)
