"""One more plate in a sitting that is promised already."""

from datetime import UTC, datetime, timedelta

import pytest

from plates import capacity
from plates.bench.models import BenchJob
from plates.errors import BenchFull, BenchPromised, JobReleased, StartPassed
from plates.ledger.services import events as ledger
from plates.schedule.selectors.openings import promised_jobs
from plates.schedule.services import jobs as bench
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)


@pytest.fixture
def day():
    return builders.a_day().bench_day


def reserved(day, *, starts_at=TEN, sizes=("quarter",)):
    plates = [builders.a_size(name) for name in sizes]
    return bench.reserve(day_id=day.pk, starts_at=starts_at, sizes=plates, held_until=TEN, now=NOW)


def added(job, name="half", now=NOW):
    return bench.add_plate(job_id=job.pk, size=builders.a_size(name), now=now)


def more_and_more(job):
    for _ in range(6):
        added(job)


def test_the_new_plate_is_made_after_the_others_and_the_whole_day_still_holds(day):
    job = reserved(day)

    slot = added(job)

    kept = promised_jobs(day=day, now=NOW)
    assert [each.position for each in job.slots.all()] == [1, 2]
    assert slot.size.name == "half"
    assert kept[0].starts_at == TEN
    booked = [each.as_booked() for each in kept]
    assert [len(each.plan.plates) for each in booked] == [2]
    assert capacity.problems(day.bench.as_capacity(), day.as_capacity(), booked) == ()


def test_a_plate_that_the_bench_has_no_room_for_changes_nothing(day):
    job = reserved(day)
    reserved(day, starts_at=TEN + timedelta(minutes=45))

    with pytest.raises(BenchFull):
        more_and_more(job)

    whole = BenchJob.objects.get(pk=job.pk)
    assert len(whole.plan["plates"]) == whole.slots.count()


def test_a_sitting_that_was_begun_takes_no_more_plates(day):
    job = reserved(day)
    ledger.pour(slot_id=job.slots.get().pk, operator=None, now=TEN)

    with pytest.raises(BenchPromised, match=r"^A plate of this sitting has been poured"):
        added(job, now=TEN)


def test_a_place_that_was_given_back_takes_no_plates(day):
    job = reserved(day)
    bench.release(job_id=job.pk, now=NOW)

    with pytest.raises(JobReleased, match=r"^This place was given back; book a new sitting instead\.$"):
        added(job)


def test_a_start_that_has_passed_takes_no_plates(day):
    job = reserved(day)

    with pytest.raises(StartPassed, match=r"^That start time has passed"):
        added(job, now=TEN)
