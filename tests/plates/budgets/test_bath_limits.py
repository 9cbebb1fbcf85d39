"""The silver bath limits the diary: too weak it blocks or slows a day by rule, and it rests within a day."""

from datetime import timedelta

import pytest

from plates.bench.models import BathRule, BenchJob
from plates.budgets.levels_of_day import levels_of_day
from plates.budgets.limits import limits_of
from plates.errors import BenchFull
from plates.schedule.selectors.openings import offer
from plates.schedule.services import start_times as starts
from plates.store.models import BathCare, StoreRoom
from tests import builders
from tests.builders import NOW, SATURDAY
from tests.builders import store as stores
from tests.builders.bottles import a_day_of_halves, sold

pytestmark = pytest.mark.django_db


def a_bath_in_use(day, **changes):
    bath = stores.a_bath(now=NOW - timedelta(days=2), **changes)
    in_use(bath, day)
    return bath


def in_use(bath, day, kind="in_use", **facts):
    bench = day.bench if kind == "in_use" else None
    return BathCare.objects.create(batch=bath, kind=kind, bench=bench, at=NOW - timedelta(days=1), **facts)


def offered(day):
    return offer(day=day, sizes=[builders.a_size("half")], now=NOW)


def test_a_bath_too_weak_blocks_the_day_until_it_is_strengthened():
    day = a_day_of_halves()
    bath = a_bath_in_use(day, silver_mg=104_000)  # 69.3 g/L, below the 70 to stop at

    with pytest.raises(BenchFull, match="the silver bath is too weak for these plates") as full:
        sold(day, 0)
    assert "strengthen it first. No other time is free on that day." in str(full.value)
    assert (offered(day).starts, offered(day).bound_by) == ([], "budget:bath strength")

    in_use(bath, day, "salt", salt_mg=30_000)
    assert sold(day, 0).pk


def test_plates_booked_until_a_day_weaken_the_bath_for_it():
    saturday, friday = a_day_of_halves(), a_day_of_halves(SATURDAY - timedelta(days=1))
    a_bath_in_use(saturday, silver_mg=108_000)  # 72 g/L: some plates
    left = limits_of(day=saturday, now=NOW).most(builders.a_size("half").as_capacity())
    assert left > 4

    for number in range(4):
        sold(friday, number)

    assert limits_of(day=saturday, now=NOW).most(builders.a_size("half").as_capacity()) == left - 4


def test_a_bath_nobody_put_to_use_limits_nothing():
    day = a_day_of_halves()
    stores.a_bath(silver_mg=104_000)

    assert len(offered(day).starts) > 20


def test_a_bench_may_let_its_bath_do_nothing():
    day = a_day_of_halves(weak_bath=BathRule.NOTHING)
    a_bath_in_use(day, silver_mg=104_000)

    assert len(offered(day).starts) > 20


def test_a_weak_bath_slows_the_day_where_the_bench_says_so():
    day = a_day_of_halves(weak_bath=BathRule.SLOWS, slow_minutes=2)
    a_bath_in_use(day, silver_mg=104_000)

    job = sold(day, 0)

    # The shortest bath is 3 minutes, and the longest 5: two minutes longer are 5.
    assert baths(job) == [5]


def test_a_day_that_becomes_slow_is_planned_anew_with_the_next_sale():
    day = a_day_of_halves(weak_bath=BathRule.SLOWS, slow_minutes=2)
    before = sold(day, 0)
    assert baths(before) == [3]
    a_bath_in_use(day, silver_mg=104_000)

    after = sold(day, 4)

    assert baths(after) == [5]
    assert baths(BenchJob.objects.get(pk=before.pk)) == [5]


def test_a_slow_day_has_other_known_starts_than_the_usual_one():
    day = a_day_of_halves(weak_bath=BathRule.SLOWS)
    starts.work_out(now=NOW, seconds=60)

    a_bath_in_use(day, silver_mg=104_000)

    assert starts.work_out(now=NOW, seconds=60) == 3


def test_a_bath_due_for_its_rest_in_light_blocks_where_the_bench_says_so():
    day = a_day_of_halves(unsunned_bath=BathRule.BLOCKS)
    a_bath_in_use(day)
    StoreRoom.objects.create(pk=1, plates_to_sun=1)  # 129 cm²: less than one half plate

    with pytest.raises(BenchFull, match="due to be rested in light"):
        sold(day, 0)
    assert [each.solution for each in levels_of_day(day=day, now=NOW)][-1] == "Silver bath until its rest"


def test_the_planner_says_how_many_plates_the_bath_still_takes():
    day = a_day_of_halves()
    a_bath_in_use(day, silver_mg=104_000)

    [strength, _rest] = levels_of_day(day=day, now=NOW)

    assert (strength.solution, strength.enough_for) == ("Strength of the silver bath", 0)


def test_after_so_many_plates_the_bath_rests_in_the_plan():
    day = a_day_of_halves(rest_after_plates=2, rest_minutes=45)
    for number in range(8):
        try:
            sold(day, number)
        except BenchFull:
            continue

    plates = sorted(
        (plate["tank_in"], plate["tank_out"])
        for job in BenchJob.objects.filter(day=day)
        for plate in job.plan["plates"]
    )
    assert len(plates) > 3
    assert most_between_rests(plates, 45) <= 2


def most_between_rests(plates, minutes):
    """Plates in the tank between two pauses that are as long, at most."""
    most, count, empty_from = 0, 0, plates[0][0]
    for begin, end in plates:
        count = 1 if begin - empty_from >= minutes else count + 1
        most, empty_from = max(most, count), end
    return most


def baths(job):
    return [plate["tank_out"] - plate["tank_in"] for plate in job.plan["plates"]]
