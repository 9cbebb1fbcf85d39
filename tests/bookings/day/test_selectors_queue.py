"""The day's queue and the days ahead."""

from datetime import UTC, date, datetime, time, timedelta

import pytest

from bookings.changes.services import sittings
from bookings.day.selectors import queue
from bookings.diary import selectors as calendar
from bookings.diary.models import SittingDay
from bookings.orders.models import ConsentPurpose
from bookings.planner.selectors import days as planner
from plates.bench.models import Stage
from plates.ledger.services import events as ledger
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
LAPSED = NOW + timedelta(hours=48)


@pytest.fixture
def day():
    return builders.a_day()


def rows(day, *, now=NOW):
    return queue.day_queue(day=SittingDay.objects.select_related("venue").get(pk=day.pk), now=now)


def test_the_queue_shows_who_sits_when_in_promised_order(day):
    builders.a_paid_order(day, at=time(12), name="Baltasar Quill")
    builders.a_paid_order(day, name="Ines Madrugada")

    shown = [(f"{row.starts_at:%H:%M}", row.order.client.name, row.confirmed) for row in rows(day)]

    assert shown == [("10:00", "Ines Madrugada", True), ("12:00", "Baltasar Quill", True)]


def test_the_queue_leaves_out_nameless_holds_lapsed_orders_and_cancelled_ones(day):
    builders.a_held_order(day)
    builders.a_placed_order(day, at=time(11))
    cancelled = builders.a_paid_order(day, at=time(12))
    sittings.cancel(order_id=cancelled.pk, now=NOW)

    assert [row.confirmed for row in rows(day)] == [False]
    assert rows(day, now=LAPSED) == []


def test_a_row_shows_the_plate_being_made_the_spoilt_ones_and_the_next_press(day):
    order = builders.a_paid_order(day, sizes=("quarter", "half"))
    first = builders.made_plates(order, stage=Stage.EXPOSED)[0]
    ledger.spoil(plate_id=first.pk, reason="moved", note="", operator=None, now=TEN)

    shown = rows(day)[0].plates

    assert [(each.live and each.live.number, [lost.number for lost in each.spoilt]) for each in shown] == [
        (None, [1]),
        (2, []),
    ]
    assert [each.next_stage for each in shown] == [Stage.POURED, Stage.DEVELOPED]


def test_a_row_is_finished_when_every_plate_is_handed_over(day):
    order = builders.a_paid_order(day, sizes=("quarter", "half"), amount=21000)
    plates = builders.made_plates(order)
    ledger.record_stage(plate_id=plates[0].pk, stage="handed_over", operator=None, now=TEN)
    half_way = rows(day)[0].finished

    ledger.record_stage(plate_id=plates[1].pk, stage="handed_over", operator=None, now=TEN)

    assert (half_way, rows(day)[0].finished) == (False, True)


@pytest.mark.parametrize("answer", [True, False, None])
def test_a_row_says_whether_the_portrait_may_be_shown(day, answer):
    consents = {} if answer is None else {ConsentPurpose.SHOW: answer}
    builders.a_paid_order(day, consents=consents)

    assert rows(day)[0].show_consent is bool(answer)


def test_the_queue_takes_the_same_queries_for_any_number_of_sittings(day, django_assert_max_num_queries):
    shown = SittingDay.objects.select_related("venue").get(pk=day.pk)
    builders.made_plates(builders.a_paid_order(day))
    with django_assert_max_num_queries(10) as one:
        queue.day_queue(day=shown, now=NOW)
    for hour in (11, 12, 13, 14):
        builders.made_plates(builders.a_paid_order(day, at=time(hour), sizes=("quarter", "half")))

    with django_assert_max_num_queries(len(one)):
        found = queue.day_queue(day=shown, now=NOW)

    assert len(found) == 5


def test_the_day_at_hand_is_the_one_whose_racks_are_not_empty_yet(day):
    sunday = builders.a_day(on=date(2026, 11, 29), bench=day.bench_day.bench)
    racks_empty = day.bench_day.racks_empty_by

    assert queue.day_on(now=racks_empty - timedelta(seconds=1)) == day
    assert queue.day_on(now=racks_empty) == sunday
    assert queue.day_on(now=racks_empty + timedelta(days=30)) == sunday


def test_without_any_day_there_is_none_at_hand():
    assert queue.day_on(now=NOW) is None


def test_clients_see_published_days_that_have_not_closed_soonest_first(day):
    bench = day.bench_day.bench
    sunday = builders.a_day(on=date(2026, 11, 29), bench=bench)
    builders.a_day(on=date(2026, 11, 30), bench=bench, published=False)

    assert calendar.open_days(now=NOW) == [day, sunday]
    assert calendar.open_days(now=day.bench_day.closes_at) == [sunday]


def test_openings_are_on_the_venues_clock():
    tent = builders.a_day(zone="Atlantic/Azores")

    found = calendar.openings(days=[tent], sizes=[builders.a_size()], now=NOW)

    # The Azores are an hour behind Lisbon, UTC-1 in winter (tz database).
    assert found[0].starts[0].isoformat() == "2026-11-28T10:00:00-01:00"


def test_the_days_ahead_count_what_is_promised_on_them(day, django_assert_num_queries):
    sunday = builders.a_day(on=date(2026, 11, 29), bench=day.bench_day.bench)
    builders.a_paid_order(day, sizes=("quarter", "half"))
    builders.a_held_order(day, at=time(12))
    cancelled = builders.a_paid_order(day, at=time(14))
    sittings.cancel(order_id=cancelled.pk, now=NOW)

    with django_assert_num_queries(3):  # days, what is promised, the store room
        found = planner.days_ahead(now=NOW)

    assert [(each.day, each.sittings, each.plates) for each in found] == [(day, 2, 3), (sunday, 0, 0)]
    assert [each.sittings for each in planner.days_ahead(now=LAPSED)] == [1, 0]


def test_the_hours_of_a_day_are_on_the_venues_clock(day):
    builders.a_paid_order(day, at=time(12))

    hours = planner.hours(day=day, size=builders.a_size(), now=NOW)

    assert [f"{hour.begins_at:%H:%M}" for hour in hours][:3] == ["10:00", "11:00", "12:00"]
    assert [hour.booked for hour in hours][:3] == [0, 0, 1]
