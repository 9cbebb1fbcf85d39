"""The last bottle of collodion, and not the clock, closes a day; amounts by hand from tests/builders/bottles.py."""

from datetime import date, timedelta

import pytest

from plates.bench.models import BenchJob, DayStarts
from plates.errors import BenchFull
from plates.schedule.selectors.openings import offer
from plates.schedule.services import jobs as bench
from plates.schedule.services import start_times as starts
from tests import builders
from tests.builders import NOW, SATURDAY
from tests.builders.bottles import HALF_HOUR, HALF_UL, a_batch, a_day_of_halves, counted, sold

pytestmark = pytest.mark.django_db

FRIDAY = SATURDAY - timedelta(days=1)


def offered(day):
    return offer(day=day, sizes=[builders.a_size("half")], now=NOW)


def test_the_last_bottle_closes_saturday_and_one_ripe_in_time_opens_it_again():
    day = a_day_of_halves()
    a_batch(20)  # enough for four halves: 4 × 4.525 mL = 18.1 mL
    for number in range(4):
        sold(day, number)

    with pytest.raises(BenchFull, match="not enough collodion") as full:
        sold(day, 8)
    assert full.value.refusal.why == "budget:collodion"
    assert (offered(day).starts, offered(day).bound_by) == ([], "budget:collodion")

    a_batch(100, label="C 2", mixed_on=date(2026, 11, 20), ripe_from=SATURDAY + timedelta(days=1))
    assert offered(day).starts == []

    a_batch(100, label="C 3", mixed_on=date(2026, 11, 20), ripe_from=SATURDAY)
    assert offered(day).starts != []
    assert sold(day, 8).pk


def test_a_refusal_says_how_much_more_would_do():
    day = a_day_of_halves()
    a_batch(20)
    for number in range(4):
        sold(day, number)

    with pytest.raises(BenchFull) as full:
        sold(day, 8)

    # By hand: 5 × 4.525 mL are 22.625 mL, 2.625 mL more than the bottle holds.
    assert full.value.refusal.lifted_by == "collodion+2625"
    assert "Another 3 mL of it, ripe by then, would do." in str(full.value)


def test_a_studio_without_a_store_room_is_not_limited():
    day = a_day_of_halves()

    assert len(offered(day).starts) > 20


def test_a_bench_that_does_not_regard_collodion_is_not_limited_by_it():
    day = a_day_of_halves(limited_by_collodion=False)
    a_batch(1)

    assert len(offered(day).starts) > 20


def test_what_is_promised_for_another_day_is_not_sold_twice():
    saturday, friday = a_day_of_halves(), a_day_of_halves(FRIDAY)
    a_batch(20)
    for number in range(3):
        sold(saturday, number)

    sold(friday, 0)

    with pytest.raises(BenchFull, match="not enough collodion"):
        sold(friday, 4)


def test_a_sitting_may_move_to_another_day_with_its_own_collodion():
    saturday, friday = a_day_of_halves(), a_day_of_halves(FRIDAY)
    a_batch(HALF_UL / 1000)
    job = sold(saturday, 0)

    bench.move(job_id=job.pk, day_id=friday.pk, starts_at=friday.opens_at, now=NOW)

    assert BenchJob.objects.get(pk=job.pk).day_id == friday.pk


def test_a_sitting_may_move_within_a_day_that_a_stock_take_found_short():
    day = a_day_of_halves()
    batch = a_batch(20)
    job = sold(day, 0)
    counted(batch, 0)

    moved = bench.move(job_id=job.pk, day_id=day.pk, starts_at=day.opens_at + HALF_HOUR, now=NOW)

    assert moved.starts_at == day.opens_at + HALF_HOUR
    with pytest.raises(BenchFull, match="not enough collodion"):
        sold(day, 4)


def test_one_more_plate_in_a_sitting_takes_what_one_more_plate_takes():
    day = a_day_of_halves()
    batch = a_batch(2 * HALF_UL / 1000)
    job = sold(day, 0)
    bench.add_plate(job_id=job.pk, size=builders.a_size("half"), now=NOW)

    with pytest.raises(BenchFull, match="not enough collodion"):
        bench.add_plate(job_id=job.pk, size=builders.a_size("half"), now=NOW)
    assert batch.made_ul == 2 * HALF_UL


def test_plates_made_again_are_reckoned_with():
    # SciPy: nbinom.ppf(0.9, 4, 0.85) = 2, so four halves want the collodion of six.
    day = a_day_of_halves(retake_chance=15)
    a_batch(6 * HALF_UL / 1000)
    for number in range(4):
        sold(day, number)

    with pytest.raises(BenchFull, match="not enough collodion"):
        sold(day, 8)


def test_a_new_batch_or_a_stock_take_makes_the_known_starts_out_of_date():
    day = a_day_of_halves()
    batch = a_batch(20)
    starts.work_out(now=NOW, seconds=60)
    assert starts.work_out(now=NOW, seconds=60) == 0

    counted(batch, 0)

    assert offered(day).starts == []
    assert starts.work_out(now=NOW, seconds=60) == 3
    known = DayStarts.objects.filter(day=day).exclude(starts=[])
    assert [row for row in known if row.order.startswith("1-")] == []


def test_a_bottle_that_is_never_used_up_makes_nothing_out_of_date():
    a_day_of_halves()
    a_batch(5000)
    starts.work_out(now=NOW, seconds=60)
    a_batch(4000, label="C 2")

    assert starts.work_out(now=NOW, seconds=60) == 0


def test_a_line_takes_no_more_than_the_bottle_holds():
    from plates.schedule.services.line import queue_up

    day = a_day_of_halves()
    a_batch(HALF_UL / 1000)
    half = [builders.a_size("half")]
    first = queue_up(day_id=day.pk, sizes=half, line=[], may_start=lambda _: True, now=NOW)

    with pytest.raises(BenchFull, match="not enough collodion"):
        queue_up(day_id=day.pk, sizes=half, line=[first.pk], may_start=lambda _: True, now=NOW)
