"""The times of a day under way follow what is pressed; by hand from the design page s.3, in UTC (the venue's clock)."""

from datetime import UTC, datetime, timedelta

import pytest

from plates.bench.models import BenchJob, DayTimes
from plates.errors import TimesUnknown
from plates.ledger.services import events as ledger
from plates.schedule.services import jobs as bench
from plates.schedule.services import late
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
MINUTE = timedelta(minutes=1)


@pytest.fixture
def day():
    return builders.a_day().bench_day


def sold(day, minute=0):
    starts_at = TEN + minute * MINUTE
    job = bench.reserve(
        day_id=day.pk, starts_at=starts_at, sizes=[builders.a_size()], held_until=starts_at, now=NOW
    )
    return bench.confirm(job_id=job.pk, now=NOW)


@pytest.fixture
def two(day):
    """The sittings of 10:00 and 10:30; the times were last worked out at 10:00, when all was in time."""
    jobs = sold(day), sold(day, 30)
    caught_up(day, 0)
    return jobs


def poured(job, minute):
    return ledger.pour(slot_id=job.slots.get().pk, operator=None, now=TEN + minute * MINUTE)


def caught_up(day, minute, absent=()):
    return late.catch_up(day_id=day.pk, now=TEN + minute * MINUTE, absent=absent)


def expected(job):
    at = BenchJob.objects.get(pk=job.pk).expected_at
    return None if at is None else (at - TEN) // MINUTE


def test_a_press_that_comes_late_tells_on_the_next_sitter(day, two):
    # The first is poured for at 10:40: that of 10:30 can be settled in its bath, at 10:42.
    poured(two[0], 40)

    done = caught_up(day, 41)

    assert (done, expected(two[1])) == (True, 42)


def test_a_press_that_does_not_come_tells_within_five_minutes(day, two):
    # Nobody was poured for: four minutes of settling may be over, so that the first sitter began at 10:10 at best.
    assert caught_up(day, 14)
    assert expected(two[0]) == 10

    assert [caught_up(day, minute) for minute in (18, 19)] == [False, True]

    assert expected(two[0]) == 15


def test_where_nothing_was_pressed_nothing_is_worked_out(day, two, django_assert_num_queries):
    with django_assert_num_queries(3):
        done = caught_up(day, 4)

    assert not done


def test_a_sitter_given_up_is_a_change(day, two):
    assert caught_up(day, 4, absent={two[0].pk})


def test_a_place_sold_is_a_change(day, two):
    sold(day, 60)

    assert caught_up(day, 0)


def test_a_clock_that_was_set_back_does_not_stop_it(day, two):
    assert caught_up(day, -1)


@pytest.mark.parametrize(("shown", "kept"), [(40, 40), (44, 44), (39, 42), (45, 42)])
def test_a_time_within_two_minutes_of_the_one_that_is_shown_is_no_news(day, two, shown, kept):
    BenchJob.objects.filter(pk=two[1].pk).update(expected_at=TEN + shown * MINUTE)
    poured(two[0], 40)

    caught_up(day, 41)

    assert expected(two[1]) == kept


def test_asked_for_by_hand_the_very_minute_is_told(day, two):
    BenchJob.objects.filter(pk=two[1].pk).update(expected_at=TEN + 43 * MINUTE)
    poured(two[0], 40)

    late.expect_anew(day_id=day.pk, now=TEN + 41 * MINUTE)

    assert expected(two[1]) == 42


def test_a_day_that_cannot_be_planned_is_not_tried_again_before_something_changes(day, two, monkeypatch):
    tried = []

    def unknown(**given):
        tried.append(given["now"])
        raise TimesUnknown("The plates under way could not be planned in the time given.")

    monkeypatch.setattr(late, "expect_anew", unknown)
    plate = poured(two[0], 4)
    assert [caught_up(day, minute) for minute in (5, 6)] == [True, False]

    ledger.record_stage(plate_id=plate.pk, stage="sensitised", operator=None, now=TEN + 9 * MINUTE)

    assert caught_up(day, 9)
    assert tried == [TEN + 5 * MINUTE, TEN + 9 * MINUTE]


def test_what_is_pressed_while_the_times_are_worked_out_is_a_change(day, two, monkeypatch):
    first = poured(two[0], 4)
    work = late._worked_out

    def pressed_meanwhile(*given):
        if first.events.count() == 1:
            ledger.record_stage(plate_id=first.pk, stage="sensitised", operator=None, now=TEN + 9 * MINUTE)
        return work(*given)

    monkeypatch.setattr(late, "_worked_out", pressed_meanwhile)
    caught_up(day, 9)

    assert caught_up(day, 9)
    assert not caught_up(day, 9)
    assert DayTimes.objects.get().worked_out_at == TEN + 9 * MINUTE
