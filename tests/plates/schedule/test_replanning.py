"""Selling what only an exact re-plan of the day finds room for. Times are UTC, the venue's clock in winter."""

from datetime import UTC, datetime, timedelta

import pytest

from plates import capacity
from plates.bench.models import BenchDay, BenchJob, Foreseen
from plates.errors import BenchFull, StartPassed
from plates.ledger.services import events as ledger
from plates.schedule.selectors.openings import promised_jobs
from plates.schedule.services import jobs as bench
from plates.schedule.services.replanning import MOST_TRIES, foresee, foreseeing
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
MINUTE = timedelta(minutes=1)


@pytest.fixture
def day():
    """One operator: two sitters promised 10:00 and 10:15 fill their minutes, and gaps alone do not hold a third."""
    return builders.a_day(bench=builders.a_bench()).bench_day


def reserved(day, starts_at, *sizes, now=NOW):
    plates = [builders.a_size(name) for name in sizes or ("quarter",)]
    return bench.reserve(
        day_id=day.pk, starts_at=starts_at, sizes=plates, held_until=now + 20 * MINUTE, now=now
    )


sold = foreseeing(reserved)


def sold_out(day, sale, *, now=NOW):
    """Sell every quarter of an hour of the first hours what can be sold by `sale`, and count it."""
    count = 0
    for quarter in range(12):
        for _ in range(2):
            try:
                sale(day, TEN + 15 * quarter * MINUTE, now=now)
                count += 1
            except (BenchFull, StartPassed):
                break
    return count


def problems(day, now=NOW):
    booked = [job.as_booked() for job in promised_jobs(day=day, now=now)]
    return capacity.problems(day.bench.as_capacity(), day.as_capacity(), booked)


def refused_start(day, now=NOW):
    """A start that gaps do not hold although the whole day can be planned so that it fits, and its refusal."""
    for quarter in range(1, 20):
        starts_at = TEN + 15 * quarter * MINUTE
        try:
            reserved(day, starts_at)
        except BenchFull as full:
            return starts_at, full
    raise AssertionError("gaps held everything")


def test_more_is_sold_by_planning_the_day_anew_than_by_gaps_alone(day):
    other = builders.a_day(bench=builders.a_bench(name="Tent"), venue=None).bench_day

    by_gaps, exactly = sold_out(day, reserved), sold_out(other, sold)

    assert exactly > by_gaps
    assert (problems(day), problems(other)) == ((), ())


def test_what_was_foreseen_is_taken_under_the_lock_and_then_forgotten(day):
    starts_at, full = refused_start(day)
    plans_before = {job.pk: job.plan for job in promised_jobs(day=day, now=NOW)}

    foresee(full=full, now=NOW)
    assert Foreseen.objects.count() == 1
    job = reserved(day, starts_at)

    assert Foreseen.objects.count() == 0
    assert problems(day) == ()
    after = {each.pk: each.plan for each in promised_jobs(day=day, now=NOW) if each.pk != job.pk}
    assert after.keys() == plans_before.keys()
    assert after != plans_before


def test_what_was_foreseen_for_a_day_that_changed_is_not_taken(day):
    starts_at, full = refused_start(day)
    foresee(full=full, now=NOW)
    Foreseen.objects.update(version=full.day.version - 1)

    with pytest.raises(BenchFull):
        reserved(day, starts_at)


def test_foreseen_plans_that_the_verifier_does_not_pass_are_not_taken(day):
    starts_at, full = refused_start(day)
    foresee(full=full, now=NOW)
    row = Foreseen.objects.get()
    row.plans["asked"]["settle"] += 30
    row.save()

    with pytest.raises(BenchFull):
        reserved(day, starts_at)


def test_a_day_that_changed_since_the_refusal_is_simply_asked_again(day):
    _, full = refused_start(day)
    bench.release(job_id=promised_jobs(day=day, now=NOW)[0].pk, now=NOW)

    foresee(full=full, now=NOW)

    assert not Foreseen.objects.exists()


def test_what_is_proven_impossible_is_refused_with_a_remedy_and_the_nearest_times(day):
    day.bench.sitters_at_once = 1
    day.bench.save()
    sold(day, TEN, now=NOW)

    with pytest.raises(
        BenchFull, match=r"^The room is full of sitters from 10:00 to 10:\d\d\. 10:"
    ) as refused:
        sold(day, TEN, now=NOW)

    assert refused.value.refusal.lifted_by == "sitters_at_once+1"
    assert not Foreseen.objects.exists()


def test_a_sitting_that_has_begun_is_never_planned_anew(day):
    first = reserved(day, TEN)
    ledger.pour(slot_id=first.slots.get().pk, operator=None, now=TEN)
    before = BenchJob.objects.get(pk=first.pk).plan

    sold_out(day, sold, now=TEN + MINUTE)

    assert BenchJob.objects.get(pk=first.pk).plan == before
    assert problems(day, now=TEN + MINUTE) == ()


def test_a_sale_is_not_tried_for_ever():
    tries = []

    @foreseeing
    def sale(*, now):
        tries.append(now)
        day = BenchDay.objects.get()
        BenchDay.objects.update(version=day.version + 1)
        refusal = capacity.Refusal(0, "operator", 0, 10, None)
        raise BenchFull(day, refusal, asked=capacity.Sitting(0, (capacity.Size("quarter"),)))

    builders.a_day()
    with pytest.raises(BenchFull):
        sale(now=NOW)

    assert len(tries) == MOST_TRIES + 1
