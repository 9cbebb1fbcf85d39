"""A day without a start says what keeps the order out; a sitting is called by start and sitter."""

from datetime import time, timedelta

import pytest

from bookings.day.selectors.queue import day_queue
from bookings.diary.selectors import openings
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db


def asked(day, now=NOW):
    return openings(days=[day], sizes=[builders.a_size("quarter")], now=now)[0]


def test_a_day_with_starts_needs_no_reason():
    found = asked(builders.a_day())

    assert found.starts
    assert found.bound_by is None


def test_a_day_whose_racks_are_emptied_too_soon_says_so():
    # A wash lasts an hour at least (common practice, no source), and this day is an hour long in all.
    found = asked(builders.a_day(closes=time(11), racks_empty_by=time(11)))

    assert (found.starts, found.bound_by) == ([], "racks")


def test_a_day_whose_last_start_has_passed_gives_no_reason():
    day = builders.a_day()

    found = asked(day, now=day.bench_day.closes_at + timedelta(minutes=1))

    assert (found.starts, found.bound_by) == ([], None)


def test_the_drawing_calls_a_sitting_by_its_start_on_the_venues_clock_and_its_sitter():
    day = builders.a_day(zone="Europe/Berlin")
    builders.a_paid_order(day, at=time(11, 30), name="Wren Achterberg")

    assert [row.label for row in day_queue(day=day, now=NOW)] == ["11:30 Wren Achterberg"]
