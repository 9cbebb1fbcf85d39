"""Promising places on a bench: reserve, extend, confirm, release. Times are UTC, the venue's clock in winter."""

from datetime import UTC, datetime, timedelta

import pytest

from plates import capacity
from plates.bench.models import BenchDay, BenchJob
from plates.errors import BenchFull, JobReleased, StartPassed
from plates.schedule.selectors.openings import promised_jobs
from plates.schedule.services import jobs as bench
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
SOON = NOW + timedelta(minutes=20)


@pytest.fixture
def day():
    """A day of a bench with hands enough and room for one sitter, so that no two begin at once, however it plans."""
    return builders.a_day(bench=builders.a_bench(operators=2, tank_places=2, sitters_at_once=1)).bench_day


def reserved(day, *, starts_at=TEN, held_until=SOON, now=NOW, sizes=("quarter",)):
    plates = [builders.a_size(name) for name in sizes]
    return bench.reserve(day_id=day.pk, starts_at=starts_at, sizes=plates, held_until=held_until, now=now)


def version(day):
    return BenchDay.objects.get(pk=day.pk).version


def test_a_reserved_job_keeps_its_plates_in_order_and_a_plan_that_the_verifier_passes(day):
    job = reserved(day, sizes=("half", "quarter"))

    assert [(slot.position, slot.size.name) for slot in job.slots.all()] == [(1, "half"), (2, "quarter")]
    booked = [each.as_booked() for each in promised_jobs(day=day, now=NOW)]
    assert capacity.problems(day.bench.as_capacity(), day.as_capacity(), booked) == ()


def test_every_change_to_a_day_is_counted_in_its_version(day):
    job = reserved(day)
    after_reserving = version(day)

    bench.release(job_id=job.pk, now=NOW)

    assert (after_reserving, version(day)) == (1, 2)


def test_a_place_that_is_held_is_not_promised_again(day):
    reserved(day)

    with pytest.raises(BenchFull, match=r"^The room is full of sitters from 10:00 to 10:14\. 10:15, 10:30"):
        reserved(day)

    assert BenchJob.objects.count() == 1


def test_a_place_is_free_again_at_the_very_minute_its_hold_lapses(day):
    reserved(day, held_until=SOON)

    second = reserved(day, now=SOON, held_until=SOON + timedelta(minutes=20))

    assert [job.pk for job in promised_jobs(day=day, now=SOON)] == [second.pk]


def test_a_start_that_has_passed_is_refused(day):
    with pytest.raises(StartPassed, match=r"^That start time has passed\. Choose a later one\.$"):
        reserved(day, now=TEN)


@pytest.mark.parametrize("odd", [timedelta(seconds=30), timedelta(microseconds=1)])
def test_a_start_between_two_minutes_is_refused(day, odd):
    with pytest.raises(StartPassed, match=r"^A sitting starts on a whole minute\.$"):
        reserved(day, starts_at=TEN + odd)


@pytest.mark.parametrize(
    ("starts_at", "sentence"),
    [
        (TEN - timedelta(minutes=15), "The studio opens at 10:00."),
        # By the default timings 2 + 3 + 1 + 2 + 2 + 2 + 2 minutes, the sitter being settled beside the pouring.
        (TEN + timedelta(hours=8), "The sitting would last until 18:14, and the studio closes at 18:00."),
        (TEN + timedelta(minutes=7), "No sitting starts at 10:07."),
    ],
)
def test_a_start_that_the_day_does_not_offer_is_refused(day, starts_at, sentence):
    with pytest.raises(BenchFull, match=f"^{sentence}"):
        reserved(day, starts_at=starts_at)


def test_a_plate_that_is_larger_than_the_tank_is_refused():
    small = builders.a_bench(name="Tent", largest_size=builders.a_size("quarter"))
    day = builders.a_day(bench=small).bench_day

    with pytest.raises(BenchFull, match=r"^The bench cannot take a plate of that size\."):
        reserved(day, sizes=("half",))


def test_extending_a_hold_keeps_the_place_longer(day):
    job = reserved(day)

    bench.extend(job_id=job.pk, held_until=SOON + timedelta(hours=1), now=NOW)

    assert BenchJob.objects.get(pk=job.pk).held_until == SOON + timedelta(hours=1)


def test_extending_a_hold_never_shortens_it(day):
    job = reserved(day)

    bench.extend(job_id=job.pk, held_until=NOW, now=NOW)

    assert BenchJob.objects.get(pk=job.pk).held_until == SOON


def test_a_lapsed_hold_is_taken_anew_when_its_place_is_still_free(day):
    job = reserved(day)

    bench.extend(job_id=job.pk, held_until=SOON + timedelta(hours=2), now=SOON + timedelta(hours=1))

    assert [kept.pk for kept in promised_jobs(day=day, now=SOON + timedelta(hours=1))] == [job.pk]


@pytest.mark.parametrize("keep", ["extend", "confirm"])
def test_a_lapsed_hold_whose_place_is_gone_is_refused_and_stays_as_it_was(day, keep):
    late = reserved(day)
    reserved(day, now=SOON, held_until=SOON + timedelta(days=1))
    how = {"held_until": SOON + timedelta(days=1)} if keep == "extend" else {}

    with pytest.raises(BenchFull, match=r"^The room is full of sitters from"):
        getattr(bench, keep)(job_id=late.pk, now=SOON + timedelta(hours=1), **how)

    late.refresh_from_db()
    assert (late.held_until, late.confirmed_at) == (SOON, None)


def test_a_lapsed_hold_is_not_kept_longer_after_its_start(day):
    late = reserved(day)

    with pytest.raises(StartPassed, match=r"^That start time has passed\. Choose a later one\.$"):
        bench.extend(job_id=late.pk, now=TEN, held_until=TEN + timedelta(days=1))


# The sitter is greeted within 5 minutes of the promised start, the first plate poured within 12 of that (design s.3).
LAST_POUR = TEN + timedelta(minutes=5 + 12)


@pytest.mark.parametrize("now", [TEN, LAST_POUR])
def test_who_pays_at_the_door_gets_the_place_while_its_first_plate_can_still_be_poured(day, now):
    job = reserved(day)
    before = job.plan

    bench.confirm(job_id=job.pk, now=now)

    stored = BenchJob.objects.get(pk=job.pk)
    assert (stored.confirmed_at, stored.plan) == (now, before)
    assert [kept.pk for kept in promised_jobs(day=day, now=now)] == [job.pk]


def test_who_pays_later_than_that_has_come_too_late(day):
    job = reserved(day)

    with pytest.raises(StartPassed, match=r"^That start time has passed\. Choose a later one\.$"):
        bench.confirm(job_id=job.pk, now=LAST_POUR + timedelta(seconds=1))


def test_who_pays_at_the_door_for_a_place_that_was_sold_again_is_told_so(day):
    lapsed = reserved(day)
    bench.confirm(job_id=reserved(day, now=SOON, held_until=SOON + timedelta(hours=1)).pk, now=SOON)

    with pytest.raises(StartPassed, match=r"^That start time has passed and its place was sold\."):
        bench.confirm(job_id=lapsed.pk, now=TEN)


def test_confirming_twice_keeps_the_first_time(day):
    job = reserved(day)
    bench.confirm(job_id=job.pk, now=NOW)

    bench.confirm(job_id=job.pk, now=NOW + timedelta(minutes=5))

    assert BenchJob.objects.get(pk=job.pk).confirmed_at == NOW


def test_a_confirmed_job_counts_when_its_hold_has_long_run_out(day):
    job = reserved(day)

    bench.confirm(job_id=job.pk, now=NOW)

    assert [kept.pk for kept in promised_jobs(day=day, now=TEN)] == [job.pk]


@pytest.mark.parametrize("keep", ["extend", "confirm"])
def test_a_place_that_was_given_back_cannot_be_kept(day, keep):
    job = reserved(day)
    bench.release(job_id=job.pk, now=NOW)
    how = {"held_until": SOON} if keep == "extend" else {}

    with pytest.raises(JobReleased, match=r"^This place was given back; book a new sitting instead\.$"):
        getattr(bench, keep)(job_id=job.pk, now=NOW, **how)
