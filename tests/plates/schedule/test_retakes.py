"""Room for making a spoilt plate again, kept in the plan of its day. Times are UTC, the venue's clock in winter."""

from datetime import UTC, datetime, time, timedelta

import pytest

from plates import capacity
from plates.bench.models import BenchJob, PlateSlot
from plates.ledger.services import events as ledger
from plates.schedule.selectors.openings import openings, promised_jobs
from plates.schedule.services import jobs as bench
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
MINUTE = timedelta(minutes=1)
SPOILT_AT = TEN + 13 * MINUTE


@pytest.fixture
def day():
    return builders.a_day().bench_day


def sold(day, starts_at=TEN, now=NOW, sizes=("quarter",)):
    plates = [builders.a_size(name) for name in sizes]
    job = bench.reserve(day_id=day.pk, starts_at=starts_at, sizes=plates, held_until=starts_at, now=now)
    return bench.confirm(job_id=job.pk, now=now)


def spoilt(job, *, poured=TEN + 4 * MINUTE, now=SPOILT_AT):
    plate = ledger.pour(slot_id=job.slots.first().pk, operator=None, now=poured)
    return ledger.spoil(plate_id=plate.pk, reason="fogged", note="", operator=None, now=now)


def offered(day):
    day.refresh_from_db()
    return openings(day=day, sizes=[builders.a_size("quarter")], now=SPOILT_AT)


def problems(day, now=SPOILT_AT):
    booked = [job.as_booked() for job in promised_jobs(day=day, now=now)]
    return capacity.problems(day.bench.as_capacity(), day.as_capacity(), booked)


def test_a_spoilt_plate_gets_the_earliest_room_beside_all_promises(day):
    job = sold(day)
    sold(day, TEN + 45 * MINUTE)

    plate = spoilt(job)

    retake = plate.retake
    assert SPOILT_AT < retake.starts_at < TEN + 45 * MINUTE
    assert [each.pk for each in promised_jobs(day=day, now=SPOILT_AT)][:2] == [job.pk, retake.pk]
    assert problems(day) == ()


def test_no_room_is_kept_before_the_spoilt_plate_became_known(day):
    """A telephone without network tells of it twenty minutes later."""
    plate = ledger.pour(slot_id=sold(day).slots.get().pk, operator=None, now=TEN + 4 * MINUTE)
    told_at = SPOILT_AT + 20 * MINUTE

    ledger.spoil(plate_id=plate.pk, reason="fogged", note="", operator=None, now=SPOILT_AT, told_at=told_at)

    assert BenchJob.objects.get(retake_of=plate).starts_at > told_at


def test_room_kept_for_a_retake_is_not_sold(day):
    job = sold(day)
    before = set(offered(day))

    plate = spoilt(job)

    gone = before - set(offered(day))
    assert any(abs(start - plate.retake.starts_at) < 20 * MINUTE for start in gone)


def test_pouring_again_begins_the_retake(day):
    job = sold(day)
    plate = spoilt(job)

    again = ledger.pour(slot_id=job.slots.get().pk, operator=None, now=SPOILT_AT + 2 * MINUTE)

    assert again.number == plate.number + 1
    assert BenchJob.objects.get(retake_of=plate).begun_at == SPOILT_AT + 2 * MINUTE


def test_a_retake_that_is_spoilt_too_gets_room_of_its_own(day):
    job = sold(day)
    first = spoilt(job)

    second = spoilt(job, poured=SPOILT_AT + 5 * MINUTE, now=SPOILT_AT + 12 * MINUTE)

    assert second.retake.starts_at > first.retake.starts_at
    assert problems(day, now=SPOILT_AT + 12 * MINUTE) == ()


def test_a_plate_spoilt_when_the_day_is_over_is_planned_no_room_for(day):
    job = sold(day)

    plate = spoilt(job, now=day.closes_at)

    assert not BenchJob.objects.filter(retake_of=plate).exists()


def test_a_day_without_room_keeps_its_promises_and_plans_no_retake():
    closes = builders.a_day(closes=time(10, 20)).bench_day
    job = sold(closes)

    plate = spoilt(job)

    assert not BenchJob.objects.filter(retake_of=plate).exists()
    assert PlateSlot.objects.filter(job=job).count() == 1
    assert problems(closes) == ()
