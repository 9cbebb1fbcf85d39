"""Selling nothing that makes anybody wait long too often. Times are UTC, the venue's clock in winter."""

from datetime import UTC, datetime, time, timedelta

import pytest
from django.db import transaction

from plates import capacity
from plates.bench.models import DayStarts
from plates.capacity.risk.assess import risk
from plates.errors import BenchFull
from plates.schedule.selectors.openings import offer, promised_jobs
from plates.schedule.services import jobs as bench
from plates.schedule.services import start_times as starts
from plates.schedule.services.replanning import foreseeing
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
MINUTE = timedelta(minutes=1)
LIMIT = 10


@pytest.fixture
def day():
    """A day on which a tenth of the sitters may wait long at the most, with the usual luck."""
    return builders.a_day(bench=builders.a_bench(wait_chance=LIMIT)).bench_day


@foreseeing
def sold(day, starts_at, *, now=NOW):
    sizes = [builders.a_size("quarter")]
    return bench.reserve(
        day_id=day.pk, starts_at=starts_at, sizes=sizes, held_until=now + 20 * MINUTE, now=now
    )


def refused_of(day, quarters):
    found = []
    for quarter in quarters:
        try:
            sold(day, TEN + 15 * quarter * MINUTE, now=NOW)
        except BenchFull as full:
            found.append(full)
    return found


def would_sell(day, minute):
    """Whether a sale would succeed; nothing is sold."""
    before = transaction.savepoint()
    refused = refused_of(day, [minute // 15])
    transaction.savepoint_rollback(before)
    return not refused


def booked_on(day):
    return [job.as_booked() for job in promised_jobs(day=day, now=NOW)]


def test_starts_a_quarter_of_an_hour_apart_are_not_all_sold_where_waiting_is_limited(day):
    careless = builders.a_day(bench=builders.a_bench(name="Careless bench")).bench_day

    assert refused_of(careless, range(4)) == []
    refused = refused_of(day, range(4))

    assert {full.refusal.why for full in refused} == {"waiting"}
    assert str(refused[0]).startswith("With this sitting too, whoever comes at 10:")


def test_on_a_day_sold_like_this_nobody_waits_long_too_often_whatever_the_luck(day):
    refused_of(day, range(10))
    booked = booked_on(day)

    played = risk(day.bench.as_capacity(), day.as_capacity(), booked, day.bench.as_chances(), seed=4711)

    # Another seed than the gate's own; 4 standard errors of 5,000 days at a tenth are 1.7 in a hundred.
    assert max(sitter.chance for sitter in played.sitters) < 0.10 + 0.017
    assert capacity.problems(day.bench.as_capacity(), day.as_capacity(), booked) == ()


def test_starts_worked_out_beforehand_are_those_that_a_sale_accepts(day):
    refused_of(day, [0, 4, 5, 9])
    starts.work_out(now=NOW, seconds=600)
    day.refresh_from_db()

    row = DayStarts.objects.get(order="1")
    sold_now = [minute for minute in range(0, 165, 15) if would_sell(day, minute)]
    assert sold_now == [minute for minute in row.starts if minute < 165]


def test_a_day_that_is_full_only_for_waiting_says_so():
    eager = builders.a_bench(wait_chance=1, late_minutes=30, spread=60)
    day = builders.a_day(bench=eager, closes=time(12), racks_empty_by=time(13, 30)).bench_day
    refused_of(day, [0, 3, 6, *range(8)])
    starts.work_out(now=NOW, seconds=600)
    day.refresh_from_db()

    found = offer(day=day, sizes=[builders.a_size("quarter")], now=NOW)

    assert (found.starts, found.bound_by) == ([], "waiting")


def test_who_waited_too_often_already_is_no_reason_to_refuse_somebody_else(day):
    """The limit was tightened after the early sittings were sold; the late ones change nothing for them."""
    refused_of(day, [0, 4])
    day.bench.wait_chance, day.bench.late_minutes = 1, 8
    day.bench.save()

    assert refused_of(day, [28]) == []
