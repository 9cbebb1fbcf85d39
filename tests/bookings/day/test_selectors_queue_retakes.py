"""What the queue says of plates to be made again and of sitters whose deposit never came."""

from datetime import UTC, datetime, time, timedelta

import pytest

from bookings.day.selectors.queue import day_queue
from plates.ledger.services import events as ledger
from tests import builders

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
MINUTE = timedelta(minutes=1)
LATER = TEN + 13 * MINUTE


def row_after_spoiling(day):
    order = builders.a_paid_order(day)
    plate = ledger.pour(slot_id=order.sitting.bench_job.slots.get().pk, operator=None, now=TEN + 4 * MINUTE)
    ledger.spoil(plate_id=plate.pk, reason="fogged", note="", operator=None, now=LATER)
    (row,) = day_queue(day=day, now=LATER)
    return row.plates[0]


def test_a_spoilt_plate_is_made_again_when_the_plan_has_room():
    plate = row_after_spoiling(builders.a_day())

    assert LATER < plate.retake_at < LATER + 20 * MINUTE
    assert not plate.squeezed


def test_a_spoilt_plate_without_room_says_that_others_will_wait():
    plate = row_after_spoiling(builders.a_day(closes=time(10, 20)))

    assert (plate.retake_at, plate.squeezed) == (None, True)


def test_a_sitter_who_has_not_paid_stays_in_the_queue_when_the_time_has_come():
    day = builders.a_day()
    builders.a_studio(deposit_hours=24 * 30)
    builders.a_placed_order(day)

    before, after = (day_queue(day=day, now=now)[0] for now in (TEN - MINUTE, TEN))

    assert [(row.confirmed, row.lapsed) for row in (before, after)] == [(False, False), (False, True)]


def test_a_sitter_whose_hold_lapsed_days_ago_is_not_expected():
    day = builders.a_day()
    builders.a_studio(deposit_hours=1)
    builders.a_placed_order(day)

    assert day_queue(day=day, now=TEN) == []


def test_a_sitting_that_has_begun_is_no_longer_only_held():
    day = builders.a_day()
    builders.a_studio(deposit_hours=24 * 30)
    order = builders.a_placed_order(day)
    ledger.pour(slot_id=order.sitting.bench_job.slots.get().pk, operator=None, now=TEN + 4 * MINUTE)

    (row,) = day_queue(day=day, now=TEN + 60 * MINUTE)

    assert (row.lapsed, row.plates[0].live.stage) == (False, "poured")
