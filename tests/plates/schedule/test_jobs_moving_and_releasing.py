"""Giving a place back, and changing it for another."""

from datetime import UTC, date, datetime, timedelta

import pytest

from plates import capacity
from plates.bench.models import BenchDay, BenchJob, PlateSlot
from plates.errors import BenchFull, BenchPromised, JobReleased, StartPassed
from plates.ledger.services import events as ledger
from plates.schedule.selectors.openings import promised_jobs
from plates.schedule.services import jobs as bench
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
NOON = TEN + timedelta(hours=2)
SOON = NOW + timedelta(minutes=20)


@pytest.fixture
def day():
    """A day of a bench with hands enough and room for one sitter, so that no two begin at once, however it plans."""
    return builders.a_day(bench=builders.a_bench(operators=2, tank_places=2, sitters_at_once=1)).bench_day


@pytest.fixture
def next_day(day):
    return builders.a_day(on=date(2026, 11, 29), bench=day.bench).bench_day


def reserved(day, *, starts_at=TEN, held_until=SOON, sizes=("quarter",)):
    plates = [builders.a_size(name) for name in sizes]
    return bench.reserve(day_id=day.pk, starts_at=starts_at, sizes=plates, held_until=held_until, now=NOW)


def begun(job):
    """The job with its first plate poured."""
    ledger.pour(slot_id=PlateSlot.objects.get(job=job, position=1).pk, operator=None, now=TEN)
    return job


def test_a_place_that_is_given_back_can_be_promised_again(day):
    first = reserved(day)
    bench.release(job_id=first.pk, now=NOW)

    second = reserved(day)

    assert promised_jobs(day=day, now=NOW) == [second]


def test_giving_back_twice_keeps_the_first_time(day):
    job = reserved(day)
    bench.release(job_id=job.pk, now=NOW)

    bench.release(job_id=job.pk, now=SOON)

    assert BenchJob.objects.get(pk=job.pk).released_at == NOW


@pytest.mark.parametrize("spoilt", [False, True])
def test_a_sitting_that_was_begun_is_not_given_back(day, spoilt):
    job = begun(reserved(day))
    if spoilt:
        plate = job.slots.get().plates.get()
        ledger.spoil(plate_id=plate.pk, reason="fogged", note="", operator=None, now=TEN)

    with pytest.raises(
        BenchPromised, match=r"^A plate of this sitting has been poured, so its place can no longer"
    ):
        bench.release(job_id=job.pk, now=TEN)

    assert BenchJob.objects.get(pk=job.pk).released_at is None


def test_moving_promises_the_new_time_and_gives_the_old_one_back(day):
    job = reserved(day)

    bench.move(job_id=job.pk, day_id=day.pk, starts_at=NOON, now=NOW)

    taken_again = reserved(day)
    kept = promised_jobs(day=day, now=NOW)
    assert [(each.pk, each.starts_at) for each in kept] == [(taken_again.pk, TEN), (job.pk, NOON)]
    booked = [each.as_booked() for each in kept]
    assert capacity.problems(day.bench.as_capacity(), day.as_capacity(), booked) == ()


def test_a_job_may_move_to_a_time_that_only_it_stands_in_the_way_of(day):
    job = reserved(day, sizes=("quarter", "quarter"))

    bench.move(job_id=job.pk, day_id=day.pk, starts_at=TEN + timedelta(minutes=15), now=NOW)

    assert BenchJob.objects.get(pk=job.pk).starts_at == TEN + timedelta(minutes=15)


def test_moving_to_another_day_changes_both_days(day, next_day):
    job = reserved(day)

    bench.move(job_id=job.pk, day_id=next_day.pk, starts_at=TEN + timedelta(days=1), now=NOW)

    assert promised_jobs(day=day, now=NOW) == []
    assert promised_jobs(day=next_day, now=NOW) == [job]
    assert list(BenchDay.objects.values_list("on", "version")) == [(day.on, 2), (next_day.on, 1)]


def test_a_move_to_a_taken_time_changes_nothing(day):
    reserved(day, starts_at=NOON)
    job = reserved(day)

    with pytest.raises(BenchFull, match=r"^The room is full of sitters from"):
        bench.move(job_id=job.pk, day_id=day.pk, starts_at=NOON, now=NOW)

    assert BenchJob.objects.get(pk=job.pk).starts_at == TEN
    assert BenchJob.objects.get(pk=job.pk).plan == job.plan


def test_a_move_into_the_past_changes_nothing(day):
    job = reserved(day)

    with pytest.raises(StartPassed, match=r"^That start time has passed"):
        bench.move(job_id=job.pk, day_id=day.pk, starts_at=TEN, now=NOON)

    assert BenchJob.objects.get(pk=job.pk).starts_at == TEN


def test_a_place_that_was_given_back_cannot_be_moved(day):
    job = reserved(day)
    bench.release(job_id=job.pk, now=NOW)

    with pytest.raises(JobReleased, match=r"^This place was given back; book a new sitting instead\.$"):
        bench.move(job_id=job.pk, day_id=day.pk, starts_at=NOON, now=NOW)


def test_a_sitting_that_was_begun_is_not_moved(day):
    job = begun(reserved(day))

    with pytest.raises(BenchPromised, match=r"^A plate of this sitting has been poured"):
        bench.move(job_id=job.pk, day_id=day.pk, starts_at=NOON, now=TEN)


def test_a_hold_that_moves_to_an_earlier_time_is_not_held_past_its_start(day, next_day):
    job = reserved(next_day, starts_at=TEN + timedelta(days=1), held_until=TEN + timedelta(hours=20))

    bench.move(job_id=job.pk, day_id=day.pk, starts_at=NOON, now=NOW)

    assert BenchJob.objects.get(pk=job.pk).held_until == NOON
