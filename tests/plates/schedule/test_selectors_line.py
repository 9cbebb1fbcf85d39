"""When people in line are begun with, held against days without chance and against work that is late."""

from datetime import UTC, datetime, time, timedelta

import pytest

from plates.bench.models import BenchJob, Stage
from plates.ledger.services import events as ledger
from plates.schedule.selectors.line import expected_starts
from plates.schedule.services.line import queue_up
from tests import builders

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
MINUTE = timedelta(minutes=1)
ONE_PLATE = 18  # minutes of a sitting of one plate (design.md s.3), see tests/plates/schedule/test_line.py
NO_CHANCE = {"retake_chance": 0, "no_show_chance": 0, "spread": 0, "late_minutes": 0}


def a_line(count, **bench):
    opened = builders.a_day(bench=builders.a_bench(sitters_at_once=1, **bench))
    return opened, [joined(opened.bench_day, count, number) for number in range(count)]


def joined(day, count, number):
    line = list(BenchJob.objects.filter(day=day).order_by("starts_at").values_list("pk", flat=True))
    sizes = [builders.a_size()]
    return queue_up(day_id=day.pk, sizes=sizes, line=line, may_start=lambda start: True, now=TEN - MINUTE)


def expected(opened, jobs, now=TEN, gone=()):
    found = expected_starts(day=opened.bench_day, line={job.pk for job in jobs}, gone=set(gone), now=now)
    return [((found[job.pk].soonest - TEN) / MINUTE, (found[job.pk].latest - TEN) / MINUTE) for job in jobs]


def test_without_chance_each_is_begun_with_when_the_one_before_is_over():
    opened, jobs = a_line(3, **NO_CHANCE)

    assert expected(opened, jobs) == [(0, 0), (ONE_PLATE, ONE_PLATE), (2 * ONE_PLATE, 2 * ONE_PLATE)]


def test_without_chance_an_hour_that_nothing_was_done_in_pushes_all_back_by_an_hour():
    opened, jobs = a_line(2, **NO_CHANCE)

    assert expected(opened, jobs, now=TEN + 60 * MINUTE) == [(60, 60), (60 + ONE_PLATE, 60 + ONE_PLATE)]


def test_the_line_goes_on_when_somebody_promised_a_time_does_not_come():
    opened = builders.a_day(bench=builders.a_bench(sitters_at_once=1, **NO_CHANCE))
    missing = builders.a_paid_order(opened, at=time(10)).sitting.bench_job
    job = joined(opened.bench_day, 1, 0)

    assert expected(opened, [job]) == [(ONE_PLATE, ONE_PLATE)]
    assert expected(opened, [job], gone=[missing.pk]) == [(0, 0)]


def test_work_that_has_begun_late_is_waited_for():
    """Poured ten minutes behind its plan: the sitting is over ten minutes later, and so is the next begun."""
    opened, (first, second) = a_line(2, **NO_CHANCE)
    planned = first.as_booked().plan.plates[0].pour + 2  # the pour takes 2 minutes
    poured_at = TEN + (planned + 10) * MINUTE
    ledger.pour(slot_id=first.slots.get().pk, operator=None, now=poured_at)

    assert expected(opened, [second], now=poured_at) == [(ONE_PLATE + 10, ONE_PLATE + 10)]


def test_a_plate_in_the_wash_holds_up_nobody():
    opened, (first, second) = a_line(2, **NO_CHANCE)
    builders.made_plate(first.slots.get(), Stage.WASHING, TEN)

    assert expected(opened, [second], now=TEN + 5 * MINUTE) == [(5, 5)]


def test_with_chance_the_range_widens_down_the_line():
    opened, jobs = a_line(4)

    widths = [latest - soonest for soonest, latest in expected(opened, jobs)]

    assert widths[1:] == sorted(widths[1:])
    assert widths[3] > widths[1] > 0


def test_nobody_in_line_is_nothing_to_play():
    opened = builders.a_day()

    assert expected_starts(day=opened.bench_day, line=set(), gone=set(), now=TEN) == {}
