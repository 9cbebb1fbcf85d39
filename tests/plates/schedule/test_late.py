"""The times kept for a day that runs late, in UTC (the venue's clock in winter), by hand from the design page s.3."""

from datetime import UTC, datetime, time, timedelta

import pytest

from plates.bench.models import BenchDay, BenchJob, Plate, Stage
from plates.errors import TimesUnknown
from plates.ledger.services import events as ledger
from plates.ledger.services import undo
from plates.schedule.selectors.late import day_work, dried
from plates.schedule.services import jobs as bench
from plates.schedule.services.late import expect_anew
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
MINUTE = timedelta(minutes=1)


@pytest.fixture
def day():
    return builders.a_day().bench_day


def sold(day, minute=0, sizes=("quarter",)):
    starts_at, plates = TEN + minute * MINUTE, [builders.a_size(name) for name in sizes]
    job = bench.reserve(day_id=day.pk, starts_at=starts_at, sizes=plates, held_until=starts_at, now=NOW)
    return bench.confirm(job_id=job.pk, now=NOW)


def poured(job, minute):
    return ledger.pour(slot_id=job.slots.first().pk, operator=None, now=TEN + minute * MINUTE)


def pressed(plate, **minutes):
    for name, minute in minutes.items():
        at = TEN + minute * MINUTE
        ledger.record_stage(plate_id=plate.pk, stage=Stage[name.upper()], operator=None, now=at)


def spoilt(plate, minute):
    return ledger.spoil(plate_id=plate.pk, reason="fogged", note="", operator=None, now=TEN + minute * MINUTE)


def anew(day, minute, **given):
    return expect_anew(day_id=day.pk, now=TEN + minute * MINUTE, **given)


def expected(job):
    at = BenchJob.objects.get(pk=job.pk).expected_at
    return None if at is None else (at - TEN) // MINUTE


def version(day):
    return BenchDay.objects.get(pk=day.pk).version


def test_a_day_that_is_in_time_keeps_no_new_times_and_stays_as_it_was(day):
    job = sold(day, 30)
    before = version(day)

    times = anew(day, 0)

    assert (times.later, expected(job), version(day)) == ({}, None, before)


def test_a_sitter_after_an_overdue_one_is_expected_later_and_promised_as_before(day):
    # By hand: the first, promised at 10:00, is poured for at 10:40; that of 10:30 can be settled in its bath at
    # 10:42, which is 7 minutes after its window of 5.
    first, second = sold(day), sold(day, 30)
    poured(first, 40)
    before = version(day)

    times = anew(day, 41)

    assert (expected(first), expected(second)) == (None, 42)
    assert times.later == {second.pk: TEN + 42 * MINUTE}
    assert BenchJob.objects.get(pk=second.pk).starts_at == second.starts_at
    # What can be promised on the day does not hang on what is expected: nothing worked out for sales is out of date.
    assert version(day) == before


def test_a_day_that_has_caught_up_forgets_its_new_times(day):
    late = sold(day, 30)
    BenchJob.objects.filter(pk=late.pk).update(expected_at=TEN + 60 * MINUTE)

    anew(day, 0)

    assert expected(late) is None


def test_a_sitter_who_did_not_come_takes_no_more_of_the_day(day):
    gone, after = sold(day), sold(day, 30)

    anew(day, 34, absent={gone.pk})

    assert (expected(gone), expected(after)) == (None, None)


def test_a_plate_to_be_made_again_without_room_in_the_plan_is_work_of_the_day_all_the_same():
    # By hand: at 14, retake and second sitting need the hands for 15 minutes each, till 44; the day closes at 40.
    short = builders.a_day(closes=time(10, 40), start_every=1).bench_day
    first, second = sold(short), sold(short, 18)
    plate = spoilt(poured(first, 4), 14)
    assert not BenchJob.objects.filter(retake_of=plate).exists()

    works = day_work(day=short, now=TEN + 14 * MINUTE)
    times = anew(short, 14)

    assert [each.job for each in works] == [first, second, None]
    assert times.late.over >= 4


def test_a_retake_follows_the_plate_that_is_poured_for_it(day):
    job = sold(day)
    plate = spoilt(poured(job, 4), 13)
    poured(job, 20)

    works = day_work(day=day, now=TEN + 21 * MINUTE)

    [sitting, retake] = works
    assert retake.job == plate.retake
    assert (sitting.work.made[0].spoilt, retake.work.made[0].poured) == (True, 20)


def test_presses_become_minutes_and_a_press_taken_back_is_none(day):
    job = sold(day)
    plate = poured(job, 4)
    pressed(plate, sensitised=9, exposed=12)
    undo.undo_press(plate_id=plate.pk, operator=None, now=TEN + 12 * MINUTE)

    [only] = day_work(day=day, now=TEN + 13 * MINUTE)

    [made] = only.work.made
    assert (made.poured, made.out, made.exposed) == (4, 9, None)


def test_a_plate_poured_by_mistake_was_never_poured(day):
    job = sold(day)
    undo.undo_press(plate_id=poured(job, 4).pk, operator=None, now=TEN + 4 * MINUTE)

    [only] = day_work(day=day, now=TEN + 5 * MINUTE)

    assert not only.work.begun
    assert Plate.objects.count() == 1


@pytest.mark.parametrize(("minute", "found"), [(17, 0), (18, 1)])
def test_a_plate_that_has_left_its_wet_window_is_named(day, minute, found):
    # By hand: out of the bath at 10:09, eight minutes of wet life.
    plate = poured(sold(day), 4)
    pressed(plate, sensitised=9)

    assert len(dried(day=day, now=TEN + minute * MINUTE)) == found


def test_a_day_that_is_over_is_left_alone(day):
    with pytest.raises(TimesUnknown) as refused:
        expect_anew(day_id=day.pk, now=day.racks_empty_by)

    assert str(refused.value) == "This day is over, so no new times are worked out."


def test_the_day_is_read_with_the_same_few_queries_for_any_number_of_plates(
    day, django_assert_max_num_queries
):
    for hour in range(4):
        poured(sold(day, 60 * hour, sizes=("quarter", "quarter")), 60 * hour + 4)

    with django_assert_max_num_queries(5):
        day_work(day=day, now=TEN + 200 * MINUTE)


def test_a_job_that_is_moved_forgets_the_time_it_was_expected_at(day):
    job = sold(day, 30)
    BenchJob.objects.filter(pk=job.pk).update(expected_at=TEN + 60 * MINUTE)

    bench.move(job_id=job.pk, day_id=day.pk, starts_at=TEN + 120 * MINUTE, now=TEN)

    assert expected(job) is None
