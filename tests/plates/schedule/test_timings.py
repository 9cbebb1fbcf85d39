"""Taking learned minutes over: only what the log says, and only where every promise can still be kept."""

from datetime import time, timedelta

import pytest

from plates.bench.models import Bench, BenchJob
from plates.errors import BenchPromised, TimingRefused
from plates.schedule.selectors.openings import broken_promises, promised_jobs
from plates.schedule.services.timings import accept_timing
from tests import builders
from tests.builders import NOW
from tests.builders.logs import a_log

pytestmark = pytest.mark.django_db


@pytest.fixture
def bench():
    """Developing takes two and a half minutes by its log, and two are planned."""
    bench = builders.a_bench()
    a_log(bench, 12)
    return bench


def accept(bench, operation="develop", minutes=3, now=NOW):
    return accept_timing(bench_id=bench.pk, operation=operation, minutes=minutes, now=now)


def planned():
    return Bench.objects.values_list("load", "expose", "develop", "fix").get()


def plans():
    return dict(BenchJob.objects.filter(day__on__gt=NOW.date()).values_list("pk", "plan"))


def test_learned_minutes_are_planned_with_from_then_on(bench):
    accept(bench)

    assert planned() == (1, 2, 3, 2)


@pytest.mark.parametrize(
    ("seconds", "minutes", "load", "expose"), [(220, 4, 1, 3), (90, 2, 1, 1), (50, 1, 0, 1)]
)
def test_loading_stays_as_it_is_while_there_is_anything_left_to_expose_in(seconds, minutes, load, expose):
    bench = builders.a_bench()
    a_log(bench, 12, lengths=(300, seconds))

    accept(bench, "expose", minutes)

    assert planned() == (load, expose, 2, 2)


@pytest.mark.parametrize("operation", ["bath", "wash", "wash_least", "operators", "", "farewell"])
def test_only_what_hands_do_is_taken_over(bench, operation):
    with pytest.raises(TimingRefused) as refusal:
        accept(bench, operation)

    assert str(refusal.value) == (
        "Only what the hands do is learned. The shortest bath and the shortest wash are rules of the chemistry."
    )
    assert planned() == (1, 2, 2, 2)


def test_too_few_plates_are_refused():
    bench = builders.a_bench()
    a_log(bench, 11)

    with pytest.raises(TimingRefused, match=r"^Too few plates yet: 11 of 12\. The planned minutes stay"):
        accept(bench)

    assert planned() == (1, 2, 2, 2)


def test_minutes_that_the_log_no_longer_says_are_refused(bench):
    a_log(bench, 30, lengths=(300, 170, 220), first=NOW)

    with pytest.raises(TimingRefused, match=r"^The plate log has gone on .* and now says 4\. Look at"):
        accept(bench, minutes=3)

    assert planned() == (1, 2, 2, 2)


def test_minutes_that_contradict_others_are_refused():
    bench = builders.a_bench(wet_window=5)
    a_log(bench, 12)

    with pytest.raises(TimingRefused, match=r"^3 minutes contradict other .*wet_window: must hold load, exp"):
        accept(bench)

    assert planned() == (1, 2, 2, 2)


def test_the_days_ahead_are_planned_anew_and_every_promised_start_is_kept(bench):
    day = builders.a_day(bench=bench)
    for hour in (10, 11, 12):
        builders.a_paid_order(day, at=time(hour), sizes=("quarter", "half"))
    before, starts = plans(), [job.starts_at for job in promised_jobs(day=day.bench_day, now=NOW)]

    changed = accept(bench)

    assert plans() != before
    assert broken_promises(bench=changed, now=NOW) == []
    assert [job.starts_at for job in promised_jobs(day=day.bench_day, now=NOW)] == starts


def test_a_change_of_minutes_counts_as_a_change_of_each_day_ahead(bench):
    day = builders.a_day(bench=bench).bench_day
    version = day.version

    accept(bench)

    day.refresh_from_db()
    assert day.version == version + 1


def test_minutes_that_leave_no_room_for_what_was_promised_are_refused_with_the_days(bench):
    # By hand: one plate takes 16 minutes of hands with two minutes of developing, 17 with three, and 19 minutes from
    # the start, for a sitter may be begun with in the first minute only.
    bench.tolerance = 0
    bench.save()
    short = {"closes": time(10, 18), "racks_empty_by": time(12)}
    for days in range(6):
        builders.a_paid_order(
            builders.a_day(on=builders.SATURDAY + timedelta(days), bench=bench, **short), at=time(10)
        )
    before = plans()

    with pytest.raises(BenchPromised) as refusal:
        accept(bench)

    assert str(refusal.value) == (
        "With these minutes the promises of 28 Nov 2026, 29 Nov 2026, 30 Nov 2026, 01 Dec 2026, 02 Dec 2026"
        " and 1 more could not be kept. Nothing was changed."
    )
    assert (planned(), plans()) == ((1, 2, 2, 2), before)


def test_a_day_that_has_begun_is_never_planned_anew(bench):
    day = builders.a_day(bench=bench)
    builders.a_paid_order(day, at=time(12))
    before = plans()

    with pytest.raises(BenchPromised) as refusal:
        accept(bench, now=day.bench_day.opens_at)

    assert str(refusal.value) == (
        "With these minutes the promises of 28 Nov 2026 could not be kept. Nothing was changed."
        " A day that has begun is not planned anew: try again when it is over."
    )
    assert plans() == before


def test_the_days_of_another_bench_are_left_alone(bench):
    other = builders.a_day(bench=builders.a_bench(name="Tent"))
    builders.a_paid_order(other, at=time(12))
    other.bench_day.refresh_from_db()
    before, version = plans(), other.bench_day.version

    accept(bench)

    other.bench_day.refresh_from_db()
    assert (plans(), other.bench_day.version) == (before, version)


def test_plans_that_still_hold_are_not_touched():
    # A shorter exposure leaves a pause where the longer one was planned, and breaks nothing.
    bench = builders.a_bench()
    a_log(bench, 12, lengths=(300, 110))
    builders.a_paid_order(builders.a_day(bench=bench), at=time(12))
    before = plans()

    changed = accept(bench, "expose", 2)

    assert (changed.load, changed.expose, plans()) == (1, 1, before)
