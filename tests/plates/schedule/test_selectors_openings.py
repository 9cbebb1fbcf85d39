"""What a bench can still make, and what it has promised."""

from datetime import UTC, datetime, time, timedelta

import pytest

from plates.bench.models import BenchDay
from plates.errors import BenchFull
from plates.schedule.selectors import openings as bench
from plates.schedule.services import jobs as services
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)


@pytest.fixture
def day():
    """Three hours with a start every half hour, and room for one sitter: no two begin at once."""
    bench = builders.a_bench(operators=2, tank_places=2, sitters_at_once=1)
    return builders.a_day(bench=bench, closes=time(13), racks_empty_by=time(14, 30), start_every=30).bench_day


def openings(day, *names, now=NOW):
    return bench.openings(day=day, sizes=[builders.a_size(name) for name in names], now=now)


def sold(day, starts_at, now=NOW):
    return services.reserve(
        day_id=day.pk,
        starts_at=starts_at,
        sizes=[builders.a_size("quarter")],
        held_until=now + timedelta(minutes=20),
        now=now,
    )


def test_an_empty_day_offers_every_start_of_its_grid_that_ends_before_closing(day):
    found = openings(day, "quarter")

    # A sitting of one plate lasts 14 minutes by the default timings with two operators, so 12:30 still ends by 13:00.
    assert found == [TEN + timedelta(minutes=30 * step) for step in range(6)]


@pytest.mark.parametrize(
    ("now", "first"),
    [
        (TEN - timedelta(seconds=1), TEN),
        (TEN, TEN + timedelta(minutes=30)),
        (TEN + timedelta(minutes=29, seconds=59), TEN + timedelta(minutes=30)),
    ],
)
def test_only_starts_still_to_come_are_offered(day, now, first):
    assert openings(day, "quarter", now=now)[0] == first


def test_what_is_offered_can_be_promised_and_what_is_not_cannot(day):
    sold(day, TEN + timedelta(minutes=30))
    offered = openings(day, "quarter")
    other = [day.instant(minute) for minute in range(0, 180, 30) if day.instant(minute) not in offered]

    for start in other:
        with pytest.raises(BenchFull):
            sold(day, start)

    assert other == [TEN + timedelta(minutes=30)]
    sold(day, offered[0])


def test_promised_jobs_come_earliest_first_without_lapsed_or_returned_ones(day):
    noon = sold(day, TEN + timedelta(hours=2))
    ten = sold(day, TEN)
    returned = sold(day, TEN + timedelta(hours=1))
    services.release(job_id=returned.pk, now=NOW)
    services.confirm(job_id=noon.pk, now=NOW)
    later = NOW + timedelta(minutes=20)

    assert bench.promised_jobs(day=day, now=later - timedelta(seconds=1)) == [ten, noon]
    assert bench.promised_jobs(day=day, now=later) == [noon]


def test_the_hours_count_the_plates_poured_in_them(day):
    sold(day, TEN)
    sold(day, TEN + timedelta(minutes=30))
    sold(day, TEN + timedelta(hours=2))

    hours = bench.hours(day=day, size=builders.a_size("quarter"), now=NOW)

    assert [hour.plates_booked for hour in hours] == [2, 0, 1]
    assert all(hour.plates_booked <= hour.plates_limit for hour in hours)


def test_reading_a_day_takes_the_same_queries_for_any_number_of_jobs(day, django_assert_num_queries):
    for step in range(4):
        sold(day, TEN + timedelta(minutes=30 * step))
    day = BenchDay.objects.select_related("bench__largest_size").get(pk=day.pk)
    size = builders.a_size("quarter")

    with django_assert_num_queries(4):  # what is known beforehand, jobs, slots with their sizes, what limits
        bench.openings(day=day, sizes=[size], now=NOW)


def test_a_change_that_breaks_a_promise_is_named_with_its_day(day):
    sold(day, TEN)
    changed = day.bench
    changed.wash_least, changed.wash_most = 90, 120

    broken = bench.broken_promises(bench=changed, now=NOW)

    assert len(broken) == 1
    assert broken[0].startswith("28 Nov 2026: ")
    assert "wash" in broken[0]


def test_a_change_breaks_nothing_on_days_that_are_over_or_empty(day):
    sold(day, TEN)
    changed = day.bench
    changed.wash_least = 90

    assert bench.broken_promises(bench=changed, now=day.closes_at) == []
    assert bench.broken_promises(bench=builders.a_bench(name="Tent"), now=NOW) == []
