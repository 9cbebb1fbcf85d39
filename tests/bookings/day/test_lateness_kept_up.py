"""The times of a day under way follow marks and presses by themselves. Times in UTC, the venue's clock in winter."""

from datetime import UTC, datetime, time, timedelta

import pytest

from bookings import drain as due
from bookings.day.services import attendance as arrivals
from bookings.day.services import lateness
from bookings.orders.models import Sitting
from bookings.walkups.services.line import open_or_close
from plates.bench.models import BenchJob, DayTimes
from plates.errors import TimesUnknown
from plates.ledger.services import events as ledger
from plates.schedule.services import late
from tests import builders

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
MINUTE = timedelta(minutes=1)
LATE = TEN + 39 * MINUTE


@pytest.fixture
def day():
    return builders.a_day()


@pytest.fixture
def two(day):
    """The sittings of 10:00 and 10:30. At 10:39 nobody has begun, so that the second is expected later."""
    orders = [builders.a_paid_order(day, at=time(10)), builders.a_paid_order(day, at=time(10, 30))]
    lateness.expect_anew(day_id=day.pk, now=LATE)
    return [order.sitting for order in orders]


def expected(sitting):
    return BenchJob.objects.get(pk=sitting.bench_job_id).expected_at


def marked(sitting, as_, now=LATE):
    return arrivals.mark(sitting_id=sitting.pk, as_=as_, now=now)


def test_a_sitter_who_did_not_come_frees_the_minutes_at_once(two):
    first, second = two
    assert expected(second) > TEN + 35 * MINUTE

    marked(first, "absent")

    assert (expected(first), expected(second)) == (None, None)


@pytest.mark.parametrize("how", ["taken back", "came after all"])
def test_who_is_not_given_up_after_all_takes_them_again(two, how):
    first, second = two
    before = expected(second)
    marked(first, "absent")

    if how == "taken back":
        arrivals.undo_mark(sitting_id=first.pk, now=LATE)
    else:
        marked(first, "arrived")

    assert expected(second) == before


@pytest.mark.parametrize("as_", ["arrived", "sat"])
def test_other_marks_are_not_waited_for(two, as_, monkeypatch):
    monkeypatch.setattr(lateness, "expect_while_at_work", None)

    marked(two[0], as_)
    arrivals.undo_mark(sitting_id=two[0].pk, now=LATE)

    assert Sitting.objects.get(pk=two[0].pk).sat_at is None


def test_a_mark_stands_though_no_times_can_be_found(two, monkeypatch):
    def unknown(**given):
        raise TimesUnknown("The plates under way could not be planned in the time given.")

    monkeypatch.setattr(late, "expect_anew", unknown)

    marked(two[0], "absent")

    assert Sitting.objects.get(pk=two[0].pk).absent_at == LATE


def test_a_mark_on_a_day_that_is_over_works_nothing_out(day, two):
    DayTimes.objects.all().delete()

    marked(two[0], "absent", now=day.bench_day.racks_empty_by)

    assert not DayTimes.objects.exists()


def test_a_slow_press_is_told_by_the_next_drain(day, two):
    first, second = two
    ledger.pour(slot_id=first.bench_job.slots.get().pk, operator=None, now=LATE + MINUTE)

    due.drain(now=LATE + 2 * MINUTE)

    # By hand: poured for at 10:40, the first sitter leaves the hands free in the bath, from 10:42 on.
    assert expected(second) == TEN + 42 * MINUTE


def test_the_drain_knows_who_did_not_come(day, two):
    Sitting.objects.filter(pk=two[0].pk).update(absent_at=LATE)

    due.drain(now=LATE)

    assert expected(two[1]) is None


def test_the_drain_brings_the_time_of_somebody_in_line_up_to_date(day):
    first = builders.a_paid_order(day).sitting
    job = builders.a_line_place(day).bench_job
    open_or_close(day_id=day.pk, keeps=True)
    assert job.starts_at < TEN + 35 * MINUTE
    ledger.pour(slot_id=first.bench_job.slots.get().pk, operator=None, now=TEN + 40 * MINUTE)

    due.drain(now=TEN + 41 * MINUTE)
    late_at = BenchJob.objects.get(pk=job.pk).expected_at
    ledger.pour(slot_id=job.slots.get().pk, operator=None, now=TEN + 46 * MINUTE)
    due.drain(now=TEN + 46 * MINUTE)

    assert late_at == TEN + 42 * MINUTE
    assert BenchJob.objects.get(pk=job.pk).expected_at is None


@pytest.mark.parametrize("minute", [-1, 555])
def test_days_that_are_not_under_way_are_left_alone(two, minute):
    # The racks of the day are to be empty at 19:15.
    assert lateness.catch_up(now=TEN + minute * MINUTE) == 0


def test_an_empty_day_under_way_is_looked_at_once(day):
    assert [lateness.catch_up(now=TEN + minute * MINUTE) for minute in (0, 4)] == [1, 0]
