"""The day of a bench as a drawing, from rows."""

from datetime import UTC, datetime, time, timedelta

import pytest

from bookings.changes.services import sittings
from bookings.diary.models import SittingDay
from plates.schedule.selectors.lanes import day_lanes
from tests import builders

pytestmark = pytest.mark.django_db


@pytest.fixture
def day():
    """A day in summer time, so that the clock of the venue is not UTC."""
    return builders.a_day(on=datetime(2026, 7, 4, tzinfo=UTC).date())


@pytest.fixture
def earlier():
    return datetime(2026, 7, 1, 9, 0, tzinfo=UTC)


def drawing(day, now, labels=None):
    return day_lanes(day=day.bench_day, labels=labels or {}, zone=day.venue.tz, now=now)


def test_promised_and_held_sittings_are_drawn_on_the_clock_of_the_venue(day, earlier):
    builders.a_paid_order(day, at=time(10), now=earlier)
    builders.a_held_order(day, at=time(12), now=earlier)

    plates = drawing(day, earlier).plates

    assert [(plate.label, plate.firm) for plate in plates] == [("10:00", True), ("12:00", False)]
    assert plates[0].pour >= "10:04"


def test_a_sitting_is_called_what_it_is_said_to_be_called(day, earlier):
    order = builders.a_paid_order(day, now=earlier)

    found = drawing(day, earlier, {order.sitting.bench_job_id: "10:00 Ines"})

    assert [plate.label for plate in found.plates] == ["10:00 Ines"]


def test_a_hold_that_has_lapsed_is_not_drawn(day, earlier):
    builders.a_held_order(day, now=earlier)

    assert drawing(day, earlier + timedelta(minutes=19)).plates
    assert not drawing(day, earlier + timedelta(minutes=20)).plates


def test_a_cancelled_sitting_is_not_drawn(day, earlier):
    order = builders.a_paid_order(day, now=earlier)

    sittings.cancel(order_id=order.pk, now=earlier)

    assert not drawing(day, earlier).plates


def test_the_line_of_now_is_drawn_during_the_day_only(day):
    opens = day.bench_day.opens_at

    assert drawing(day, opens + timedelta(minutes=30)).now_x == 60
    assert drawing(day, opens - timedelta(minutes=1)).now_x is None


@pytest.mark.parametrize("sittings_sold", [1, 4])
def test_the_drawing_takes_the_same_two_queries_for_any_number_of_sittings(
    day, earlier, sittings_sold, django_assert_num_queries
):
    for hour in range(sittings_sold):
        builders.a_paid_order(day, at=time(10 + hour), now=earlier)
    fetched = SittingDay.objects.select_related("venue", "bench_day__bench__largest_size").get(pk=day.pk)

    with django_assert_num_queries(2):  # the jobs, their plates with the sizes of these
        drawing(fetched, earlier)
