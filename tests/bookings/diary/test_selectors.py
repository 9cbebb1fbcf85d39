"""Starts by daylight: from when the sun stands high enough until the sitting could be over."""

from datetime import UTC, datetime, time, timedelta

import pytest

from bookings.diary import selectors as calendar
from bookings.diary.models import SittingDay, Venue
from bookings.errors import NotInLight
from bookings.planner.selectors.days import days_ahead
from plates.errors import BenchFull
from tests import builders
from tests.builders import NOW
from tests.builders import daylight as lit
from tests.builders.daylight import a_lit_day, a_lit_venue

pytestmark = pytest.mark.django_db

MINUTE = timedelta(minutes=1)


def starts(day, plates=1, now=NOW):
    sizes = [builders.a_size("quarter")] * plates
    return [f"{start:%H:%M}" for start in calendar.openings(days=[day], sizes=sizes, now=now)[0].starts]


def at(hour, minute=0):
    """An instant of the day; the clock of Lisbon is that of UTC in November."""
    return datetime(2026, 11, 28, hour, minute, tzinfo=UTC)


@pytest.mark.parametrize(
    # By design.md s.3 a sitting lasts 18, 33 and 60 minutes at the least (4 + 9 for each plate + 2, or one whole
    # chain), and it may be begun 5 minutes late; the light is that of tests/builders/daylight.py, 09:50 to 14:58.
    ("plates", "first", "last"),
    [(1, "10:00", "14:30"), (3, "10:00", "14:15"), (6, "10:00", "13:45")],
)
def test_starts_are_offered_from_when_it_is_light_until_the_sitting_would_outlast_it(plates, first, last):
    found = starts(a_lit_day(), plates)

    assert (found[0], found[-1]) == (first, last)


def test_a_day_that_does_not_work_by_daylight_offers_all_that_the_bench_can_make():
    day = builders.a_day(opens=time(9), venue=a_lit_venue())

    found = calendar.openings(days=[day], sizes=[builders.a_size("quarter")], now=NOW)[0]

    assert (f"{found.starts[0]:%H:%M}", f"{found.starts[-1]:%H:%M}") == ("09:00", "17:30")
    assert found.light is None


def test_the_times_of_light_are_said_on_the_clock_of_the_venue():
    # The Azores are an hour behind Lisbon all the year (tz database, Atlantic/Azores).
    words = [
        calendar.light_in_words(a_lit_day(venue=venue, bench=builders.a_bench(name=venue.name)))
        for venue in (a_lit_venue(), _in_the_azores())
    ]

    begins, ends = (time.fromisoformat(clock) for clock in words[0].removeprefix("from ").split(" to "))
    assert abs(_minutes(begins) - _minutes(lit.BEGINS)) <= lit.WITHIN_MINUTES
    assert abs(_minutes(ends) - _minutes(lit.ENDS)) <= lit.WITHIN_MINUTES
    assert words[1] == f"from {begins.hour - 1:02}:{begins.minute:02} to {ends.hour - 1:02}:{ends.minute:02}"


def _in_the_azores():
    venue = a_lit_venue("Island quay")
    Venue.objects.filter(pk=venue.pk).update(zone="Atlantic/Azores")
    return Venue.objects.get(pk=venue.pk)


def _minutes(clock):
    return clock.hour * 60 + clock.minute


@pytest.mark.parametrize(("minutes", "light"), [(0, True), (1, False)])
def test_a_sitting_ends_with_the_last_minute_of_light_and_no_later(minutes, light):
    day = a_lit_day()
    last = calendar.light_in_words(day).partition(" to ")[2]
    ends_at = datetime.combine(day.bench_day.on, time.fromisoformat(last), tzinfo=UTC)

    # 5 minutes of tolerance and 18 of sitting (design.md s.3).
    starts_at = ends_at - timedelta(minutes=23 - minutes)

    assert calendar.in_light(day, starts_at, 1) is light


def test_a_start_without_light_is_refused_with_the_times_of_light():
    day = a_lit_day()

    with pytest.raises(NotInLight) as refusal:
        calendar.refuse_dark(day=day, starts_at=at(15), plates=1)

    light = calendar.light_in_words(day)
    assert str(refusal.value) == (
        f"This day works by daylight: {light}. A sitting at 15:00 needs light until 15:23. Choose another time."
    )


def test_a_day_on_which_the_sun_stays_low_says_so_and_offers_nothing():
    # At noon it stands 90 - 38.7 - 21.3 = 30 degrees high.
    day = a_lit_day(sun_height=31)

    found = calendar.openings(days=[day], sizes=[builders.a_size("quarter")], now=NOW)[0]

    assert (found.starts, found.bound_by) == ([], "daylight")
    assert found.light == "the sun does not stand high enough on this day"


def test_a_full_day_by_daylight_is_still_bound_by_the_bench():
    day = a_lit_day(closes=time(10), racks_empty_by=time(10))

    found = calendar.openings(days=[day], sizes=[builders.a_size("quarter")], now=NOW)[0]

    # A wash lasts an hour at least (common practice, no source), and this day is an hour long in all.
    assert (found.starts, found.bound_by) == ([], "racks")


def test_where_nobody_knows_where_the_sun_is_nothing_is_offered():
    day = a_lit_day()
    Venue.objects.update(latitude=None, longitude=None)

    assert starts(SittingDay.objects.get(pk=day.pk)) == []


def test_a_refusal_of_the_bench_names_only_starts_that_have_light():
    day = a_lit_day(bench=builders.a_bench(sitters_at_once=1))
    builders.a_paid_order(day, at=time(14, 30))
    with pytest.raises(BenchFull) as refusal:
        builders.a_held_order(day, at=time(14, 30))

    named = calendar.lit(day=day, full=refusal.value, now=NOW).nearest

    assert any(start > at(14, 30) for start in refusal.value.nearest)
    assert len(named) == 3
    assert max(named) < at(14, 30)
    assert calendar.full_in_words(full=refusal.value, now=NOW).endswith(" are free.")


def test_on_other_days_the_refusal_of_the_bench_is_left_as_it_is():
    day = builders.a_day(bench=builders.a_bench(sitters_at_once=1))
    builders.a_paid_order(day, at=time(14, 30))
    with pytest.raises(BenchFull) as refusal:
        builders.a_held_order(day, at=time(14, 30))

    assert calendar.lit(day=day, full=refusal.value, now=NOW) is refusal.value


def test_the_planner_says_when_there_is_light():
    day = a_lit_day()
    builders.a_day(bench=builders.a_bench(name="Other bench"))

    assert [planned.light for planned in days_ahead(now=NOW)] == [calendar.light_in_words(day), None]
