"""What a day of a bench could still make with one more of anything, read from the rows."""

from datetime import UTC, datetime, time, timedelta

import pytest

from plates.bench.models import BenchJob
from plates.capacity.what_if import what_if
from plates.schedule.selectors.what_if import still_to_sell
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
HALF_PAST = TEN + timedelta(minutes=30)


@pytest.fixture
def day():
    """Ten to eleven; the one wash place is free once only on that day."""
    bench = builders.a_bench(wash_places=1)
    return builders.a_day(bench=bench, closes=time(11), racks_empty_by=time(12))


def asked(day, *, starts=(TEN, HALF_PAST), now=NOW):
    return still_to_sell(
        day=day.bench_day, size=builders.a_size(), starts=starts, assistant_from=HALF_PAST, now=now
    )


def sittings(found):
    return {each.change: each.sittings for each in found.found}


def test_a_wash_place_more_is_one_sitting_more_where_the_wash_binds(day):
    found = asked(day)

    # By hand: two plates begun by half past ten are both in the wash at eleven, for an hour at least.
    assert sittings(found) == {
        "none": 1,
        "assistant": 1,
        "operators+1": 1,
        "tank_places+1": 1,
        "wash_places+1": 2,
    }
    assert all(each.proven for each in found.found)
    assert found.open_changes == ()


def test_what_is_promised_takes_its_room(day):
    builders.a_paid_order(day, at=time(10))

    assert sittings(asked(day))["none"] == 0
    assert sittings(asked(day))["wash_places+1"] == 1


def test_a_hold_that_lapsed_takes_none(day):
    builders.a_held_order(day, at=time(10))
    BenchJob.objects.update(held_until=NOW)

    assert sittings(asked(day))["none"] == 1


def test_no_start_left_sells_nothing(day):
    assert set(sittings(asked(day, starts=())).values()) == {0}


def test_what_is_not_worked_out_in_time_is_named(day, monkeypatch):
    monkeypatch.setitem(what_if.__kwdefaults__, "patience", 0.0)

    found = asked(day)

    assert sittings(found) == {"none": 1}
    assert found.open_changes == ("assistant", "operators+1", "tank_places+1", "wash_places+1")


def test_the_rows_are_read_and_nothing_is_written(day, django_assert_num_queries):
    builders.a_paid_order(day, at=time(10))
    size = builders.a_size()

    with django_assert_num_queries(3) as queries:  # the store room is looked at too
        still_to_sell(day=day.bench_day, size=size, starts=[TEN], assistant_from=HALF_PAST, now=NOW)

    assert all(query["sql"].startswith("SELECT") for query in queries.captured_queries)
