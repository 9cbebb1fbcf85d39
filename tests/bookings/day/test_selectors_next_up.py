"""What the photographer is to do next."""

from datetime import UTC, datetime, time, timedelta

import pytest

from bookings.day.selectors.next_up import next_up
from bookings.day.selectors.queue import day_queue
from bookings.day.services import attendance as arrivals
from plates.ledger.services import events as ledger
from tests import builders

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
MINUTE = timedelta(minutes=1)


@pytest.fixture
def day():
    return builders.a_day()


def due(day, now):
    return [
        (step.stage, step.row.order.client.name, step.overdue)
        for step in next_up(day=day, rows=day_queue(day=day, now=now), now=now)
    ]


def test_a_day_without_sittings_has_nothing_next(day):
    assert due(day, TEN) == []


def test_the_plate_in_the_bath_comes_before_the_sitter_at_eleven(day):
    first = builders.a_paid_order(day, name="Ines Madrugada")
    builders.a_paid_order(day, at=time(11), name="Wren Achterberg")
    ledger.pour(slot_id=first.sitting.bench_job.slots.get().pk, operator=None, now=TEN + 4 * MINUTE)

    assert due(day, TEN + 5 * MINUTE) == [
        ("sensitised", "Ines Madrugada", False),
        ("poured", "Wren Achterberg", False),
    ]


def test_a_bath_that_has_lasted_too_long_is_overdue(day):
    order = builders.a_paid_order(day)
    ledger.pour(slot_id=order.sitting.bench_job.slots.get().pk, operator=None, now=TEN)

    # Two minutes of pouring and at the most five in the bath (the defaults).
    assert [each[2] for now in (7, 8) for each in due(day, TEN + now * MINUTE)] == [False, True]


def test_whoever_did_not_come_is_left_out(day):
    order = builders.a_paid_order(day)
    arrivals.mark(sitting_id=order.sitting.pk, as_="absent", now=TEN + 15 * MINUTE)

    assert due(day, TEN + 16 * MINUTE) == []


def test_only_the_next_few_are_named(day):
    for hour in (10, 11, 12, 13, 14, 15):
        builders.a_paid_order(day, at=time(hour))

    assert len(due(day, TEN)) == 4
