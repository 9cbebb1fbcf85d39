"""What keeps an order out of a day, when no start is left for it."""

from datetime import time, timedelta

import pytest

from plates.schedule.selectors import openings as bench
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db


def binds(day, *names, now=NOW):
    sizes = [builders.a_size(name) for name in names]
    found = bench.offer(day=day.bench_day, sizes=sizes, now=now)
    assert found.starts == []
    return found.bound_by


def test_a_plate_too_large_for_the_tank_is_kept_out_by_its_size():
    small = builders.a_bench(largest_size=builders.a_size("quarter"))

    assert binds(builders.a_day(bench=small), "whole") == "size"


def test_racks_emptied_before_a_wash_could_end_keep_every_plate_out():
    # A wash lasts an hour at least (common practice, no source), and this day is an hour long in all.
    day = builders.a_day(closes=time(11), racks_empty_by=time(11))

    assert binds(day, "quarter") == "racks"


def test_nothing_keeps_an_order_out_once_the_last_start_has_passed():
    day = builders.a_day()

    assert binds(day, "quarter", now=day.bench_day.closes_at + timedelta(minutes=1)) is None
