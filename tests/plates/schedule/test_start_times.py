"""Start times worked out beforehand. Times are UTC, the venue's clock in winter."""

from datetime import UTC, datetime, timedelta

import pytest

from plates.bench.models import DayStarts
from plates.errors import BenchFull
from plates.schedule.selectors.openings import offer, openings
from plates.schedule.services import jobs as bench
from plates.schedule.services import start_times as starts
from plates.schedule.services.replanning import foreseeing
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
MINUTE = timedelta(minutes=1)


@pytest.fixture
def day():
    builders.a_size("quarter"), builders.a_size("half"), builders.a_size("whole")
    return builders.a_day().bench_day


@foreseeing
def sold(day, starts_at, *, now=NOW, held_until=NOW + 20 * MINUTE):
    sizes = [builders.a_size("quarter")]
    return bench.reserve(day_id=day.pk, starts_at=starts_at, sizes=sizes, held_until=held_until, now=now)


def filled(day, count=10):
    for number in range(count):
        sold(day, TEN + 30 * number * MINUTE, now=NOW)
    day.refresh_from_db()


def quarter_starts(day, now=NOW):
    return openings(day=day, sizes=[builders.a_size("quarter")], now=now)


def test_sizes_that_the_bench_cannot_tell_apart_are_worked_out_once(day):
    done = starts.work_out(now=NOW, seconds=60)

    # Quarter and half take one wash place, whole two: one to three plates of each kind.
    assert done == 6
    assert set(DayStarts.objects.values_list("order", flat=True)) == {
        "1", "1.1", "1.1.1", "2", "2.2", "2.2.2",
    }  # fmt: skip


def test_nothing_is_worked_out_twice_until_the_day_changes(day):
    starts.work_out(now=NOW, seconds=60)
    assert starts.work_out(now=NOW, seconds=60) == 0

    sold(day, TEN, now=NOW)

    assert starts.work_out(now=NOW, seconds=60) == 6


def test_a_change_of_the_bench_is_a_change_of_its_days(day):
    starts.work_out(now=NOW, seconds=60)
    day.bench.pour = 3
    day.bench.save()

    assert starts.work_out(now=NOW, seconds=60) == 6


def test_a_page_reads_known_starts_in_two_queries(day, django_assert_num_queries):
    filled(day)
    starts.work_out(now=NOW, seconds=60)
    size, _ = builders.a_size("quarter"), day.bench

    with django_assert_num_queries(2):  # the batches of the store room, the starts
        found = openings(day=day, sizes=[size], now=NOW)

    assert found != []


def test_what_gaps_do_not_hold_is_offered_once_it_is_worked_out_and_can_be_sold(day):
    filled(day)
    by_gaps = quarter_starts(day)

    starts.work_out(now=NOW, seconds=60)

    more = set(quarter_starts(day)) - set(by_gaps)
    assert more
    assert sold(day, min(more), now=NOW).pk


def test_every_start_that_is_left_out_is_proven_impossible(day):
    filled(day)
    starts.work_out(now=NOW, seconds=60)

    assert DayStarts.objects.get(order="1").undecided == []
    offered = quarter_starts(day)
    for quarter in range(28):
        start = TEN + 15 * quarter * MINUTE
        if start not in offered:
            with pytest.raises(BenchFull, match="free"):
                sold(day, start, now=NOW)


def test_only_starts_still_to_come_are_read(day):
    starts.work_out(now=NOW, seconds=60)

    assert quarter_starts(day, now=TEN)[0] == TEN + 15 * MINUTE


def test_starts_known_before_a_change_are_not_shown_after_it(day):
    starts.work_out(now=NOW, seconds=60)
    DayStarts.objects.update(starts=[])
    assert quarter_starts(day) == []

    sold(day, TEN, now=NOW)
    day.refresh_from_db()

    assert quarter_starts(day) != []


def test_a_hold_that_lapsed_makes_the_known_starts_out_of_date(day):
    sold(day, TEN, now=NOW)
    starts.work_out(now=NOW, seconds=60)

    assert starts.work_out(now=NOW + 19 * MINUTE, seconds=60) == 0
    assert starts.work_out(now=NOW + 20 * MINUTE, seconds=60) == 6


def test_a_day_without_any_start_says_what_binds(day):
    day.bench.wash_places = 1
    day.bench.save()
    starts.work_out(now=NOW, seconds=60)

    found = offer(day=day, sizes=[builders.a_size("whole")], now=NOW)

    assert (found.starts, found.bound_by) == ([], "size")


def test_days_that_have_closed_are_left_alone(day):
    assert starts.work_out(now=day.closes_at, seconds=60) == 0


def test_a_round_ends_when_its_time_is_up_and_the_next_goes_on(day):
    assert starts.work_out(now=NOW, seconds=0) == 1
    assert starts.work_out(now=NOW, seconds=60) == 5


def test_looking_for_what_is_out_of_date_takes_the_same_queries_for_any_number_of_days(
    day, django_assert_num_queries
):
    for more in (1, 2, 3):
        builders.a_day(on=builders.SATURDAY + timedelta(days=more), bench=day.bench)
    starts.work_out(now=NOW, seconds=60)

    with django_assert_num_queries(4):  # days, the store room, what is known of the days, sizes
        assert starts.work_out(now=NOW, seconds=60) == 0
