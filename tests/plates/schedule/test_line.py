"""Room for a line: the earliest minute behind those before, never at the cost of a promise."""

from datetime import time, timedelta

import pytest

from bookings.diary.models import SittingDay
from plates import capacity
from plates.bench.models import BenchJob
from plates.errors import BenchFull
from plates.schedule.selectors.openings import promised_jobs
from plates.schedule.services import jobs as bench_services
from plates.schedule.services.line import close_up, queue_up
from tests import builders

pytestmark = pytest.mark.django_db

MINUTE = timedelta(minutes=1)
# Of one plate with the usual minutes of a bench: settle 4, pour 2, bath 3, load 1, expose 2, develop 2, fix 2,
# farewell 2 (design.md s.3); nothing can be done beside it by one operator.
ONE_PLATE = 18 * MINUTE


@pytest.fixture
def day():
    """A bench with room for one sitter at a time, so that sittings cannot be woven into each other."""
    return builders.a_day(bench=builders.a_bench(sitters_at_once=1)).bench_day


def joined(day, line=(), *, now=None, size="quarter", may_start=lambda start: True):
    return queue_up(
        day_id=day.pk,
        sizes=[builders.a_size(size)],
        line=[job.pk for job in line],
        may_start=may_start,
        now=now or day.opens_at,
    )


def closed_up(day, line, *, now):
    close_up(day_id=day.pk, line=[job.pk for job in line], may_start=lambda start: True, now=now)
    return [BenchJob.objects.get(pk=job.pk).starts_at for job in line]


def test_the_first_in_line_begins_with_the_next_whole_minute(day):
    assert joined(day, now=day.opens_at + 30 * MINUTE).starts_at == day.opens_at + 31 * MINUTE


def test_before_the_opening_the_line_begins_with_the_opening(day):
    assert joined(day, now=day.opens_at - 30 * MINUTE).starts_at == day.opens_at


def test_each_next_one_begins_when_the_one_before_can_be_over(day):
    first = joined(day)
    second = joined(day, [first])

    assert second.starts_at - first.starts_at == ONE_PLATE


def test_a_promise_on_the_clock_is_walked_around_and_stays_as_it_is(day):
    promised = builders.a_paid_order(SittingDay.objects.get(), at=time(10, 15)).sitting.bench_job

    job = joined(day)

    assert job.starts_at >= promised.starts_at + ONE_PLATE
    assert BenchJob.objects.get(pk=promised.pk).plan == promised.plan


def test_room_is_firm_and_needs_no_deposit(day):
    job = joined(day)

    assert job.counts(job.starts_at + timedelta(hours=3))


def test_who_leaves_lets_the_others_move_up_in_their_order(day):
    line = []
    for _ in range(3):
        line.append(joined(day, line))
    gone = line.pop(0)
    bench_services.release(job_id=gone.pk, now=day.opens_at)

    starts = closed_up(day, line, now=day.opens_at)

    assert starts == [gone.starts_at, gone.starts_at + ONE_PLATE]


def test_a_line_that_nobody_left_stays_as_it_is(day):
    line = []
    for _ in range(3):
        line.append(joined(day, line))

    assert closed_up(day, line, now=day.opens_at) == [job.starts_at for job in line]


def test_minutes_that_have_passed_are_not_planned_with_any_more(day):
    first = joined(day)
    second = joined(day, [first])
    now = first.starts_at + 10 * MINUTE

    assert closed_up(day, [first, second], now=now) == [now + MINUTE, now + MINUTE + ONE_PLATE]


def test_who_has_begun_is_not_moved(day):
    job = joined(day)
    bench_services.begin(job_id=job.pk, now=job.starts_at)

    assert closed_up(day, [job], now=job.starts_at + 10 * MINUTE) == [job.starts_at]


def test_when_they_do_not_all_fit_any_more_all_stay_where_they_are(day):
    line = []
    for _ in range(3):
        line.append(joined(day, line))
    late = day.closes_at - ONE_PLATE - MINUTE

    assert closed_up(day, line, now=late) == [job.starts_at for job in line]


def test_the_day_is_full_when_no_plate_can_be_made_before_closing(day):
    late = day.closes_at - ONE_PLATE - MINUTE
    last = joined(day, now=late)

    with pytest.raises(BenchFull):
        joined(day, [last], now=late)

    assert last.starts_at == day.closes_at - ONE_PLATE


def test_two_wash_places_take_no_third_plate_within_the_hour():
    """A wash takes an hour (common practice, no source): the third plate goes in when the first comes out."""
    day = builders.a_day(bench=builders.a_bench(wash_places=2, sitters_at_once=1)).bench_day
    line = []
    for _ in range(3):
        line.append(joined(day, line))
    first, _, third = (job.as_booked().plan.plates[0].wash_in for job in line)

    assert third - first >= 60


def test_a_plate_that_does_not_fit_the_tank_is_never_taken():
    bench = builders.a_bench(largest_size=builders.a_size("quarter"))
    day = builders.a_day(bench=bench).bench_day

    with pytest.raises(BenchFull) as refused:
        joined(day, size="whole")

    assert refused.value.refusal.why == "size"


def test_a_start_that_may_not_be_is_passed_over(day):
    noon = day.opens_at + timedelta(hours=2)

    assert joined(day, may_start=lambda start: start >= noon).starts_at == noon


def a_line_before_a_promise(at):
    """A bench that limits waiting to 10 % with somebody promised a time, and four in line from the opening on."""
    bench = builders.a_bench(sitters_at_once=1, wait_chance=10)
    sitting_day = builders.a_day(bench=bench)
    promised = builders.a_paid_order(sitting_day, at=at).sitting.bench_job
    line = []
    for _ in range(4):
        line.append(joined(sitting_day.bench_day, line))
    return sitting_day.bench_day, promised, line


def test_a_bench_that_limits_waiting_keeps_the_line_away_from_a_promise():
    """Behind one another without a gap, retakes would make the promised sitter wait: 15 plates in a hundred."""
    _, promised, line = a_line_before_a_promise(time(11))

    starts = [BenchJob.objects.get(pk=job.pk).starts_at for job in line]

    assert [start < promised.starts_at for start in starts] == [True, True, False, False]


def test_closing_up_does_not_bring_the_line_back_to_where_a_promise_would_wait_for_it():
    day, _, line = a_line_before_a_promise(time(11))

    assert closed_up(day, line, now=day.opens_at) == [job.starts_at for job in line]


def test_closing_up_takes_the_gap_that_somebody_left():
    day, promised, line = a_line_before_a_promise(time(11))
    gone = line.pop(0)
    bench_services.release(job_id=gone.pk, now=day.opens_at)

    starts = closed_up(day, line, now=day.opens_at)

    assert [start < promised.starts_at for start in starts] == [True, True, False]


def test_the_day_with_its_line_passes_the_verifier():
    day = builders.a_day(bench=builders.a_bench(operators=2, tank_places=2, wash_places=4)).bench_day
    line = []
    for size in ("quarter", "whole", "half", "sixth", "whole"):
        line.append(joined(day, line, size=size))
    booked = [job.as_booked() for job in promised_jobs(day=day, now=day.opens_at)]

    assert capacity.problems(day.bench.as_capacity(), day.as_capacity(), booked) == ()
    assert [job.starts_at for job in line] == sorted(job.starts_at for job in line)
