"""A day by daylight is opened only where the sun can be found, and sells no start without light."""

from datetime import UTC, datetime, time
from decimal import Decimal

import pytest
from django.core.exceptions import ValidationError

from bookings.changes.services import sittings
from bookings.checkout.services import booking
from bookings.diary import services as calendar
from bookings.diary.models import SittingDay
from bookings.errors import NotInLight
from bookings.orders.models import Order
from bookings.orders.services import placing
from plates.bench.models import BenchDay, BenchJob
from tests import builders
from tests.builders import NOW
from tests.builders.daylight import a_lit_day, a_lit_venue

pytestmark = pytest.mark.django_db

NOON = datetime(2026, 11, 28, 12, tzinfo=UTC)
TOO_LATE = datetime(2026, 11, 28, 15, tzinfo=UTC)
TOLD = "A sitting at 15:00 needs light until"


def opened(venue, sun_height):
    hours = calendar.Hours(opens=time(10), closes=time(18), racks_empty_by=time(19, 15))
    return calendar.open_day(
        venue=venue, bench=builders.a_bench(), on=builders.SATURDAY, hours=hours, sun_height=sun_height
    )


def test_a_day_is_opened_by_daylight():
    day = SittingDay.objects.get(pk=opened(a_lit_venue(), Decimal("12.5")).pk)

    assert (day.by_daylight, day.sun_height) == (True, Decimal("12.5"))


def test_without_a_height_a_day_does_not_work_by_daylight():
    assert opened(builders.a_venue(), None).by_daylight is False


@pytest.mark.parametrize(
    ("venue", "sun_height", "sentence"),
    [
        (builders.a_venue, 10, "Enter the latitude and longitude of Gannet Lane under Set-up first."),
        (a_lit_venue, 91, "Ensure this value is less than or equal to 90."),
    ],
)
def test_a_day_by_daylight_that_cannot_be_is_not_opened_at_all(venue, sun_height, sentence):
    with pytest.raises(ValidationError) as refusal:
        opened(venue(), Decimal(sun_height))

    assert sentence in refusal.value.messages
    assert not BenchDay.objects.exists()


def test_a_start_without_light_is_not_held():
    day = a_lit_day()

    with pytest.raises(NotInLight, match=TOLD):
        builders.a_held_order(day, at=time(15))

    assert not Order.objects.exists()


def test_a_sitting_is_not_moved_to_a_start_without_light():
    day = a_lit_day()
    order = builders.a_paid_order(day, at=time(12))

    with pytest.raises(NotInLight, match=TOLD):
        sittings.move(order_id=order.pk, day_id=day.pk, starts_at=TOO_LATE, now=NOW)

    assert BenchJob.objects.get().starts_at == NOON


def test_an_order_is_not_placed_at_another_start_without_light():
    day = a_lit_day()
    order = builders.a_held_order(day, at=time(12))
    details = placing.Details(name="Ines Madrugada", email="ines@example.org", phone="", consents={})

    with pytest.raises(NotInLight, match=TOLD):
        booking.place_order(order_id=order.pk, details=details, now=NOW, another_start=TOO_LATE)

    assert Order.objects.get().placed_at is None


def test_more_plates_need_light_for_longer():
    # 5 + 18 minutes for one plate, 5 + 60 for six (design.md s.3); the light lasts until 14:58.
    day = a_lit_day()

    with pytest.raises(NotInLight, match="A sitting at 14:00 needs light until 15:05"):
        builders.a_held_order(day, at=time(14), sizes=["quarter"] * 6)

    assert builders.a_held_order(day, at=time(14)).sitting.bench_job.starts_at.hour == 14


def test_a_promise_is_kept_when_its_day_is_worked_by_daylight_afterwards():
    day = builders.a_day(venue=a_lit_venue())
    order = builders.a_held_order(day, at=time(15))
    day.by_daylight, day.sun_height = True, Decimal(20)
    day.full_clean()
    day.save()
    details = placing.Details(name="Ines Madrugada", email="ines@example.org", phone="", consents={})

    placed = booking.place_order(order_id=order.pk, details=details, now=NOW)

    assert placed.placed_at == NOW
