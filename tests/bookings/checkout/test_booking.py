"""From a wish to a placed order."""

from datetime import UTC, date, datetime, time, timedelta
from uuid import uuid4

import pytest

from bookings.checkout.services import booking
from bookings.errors import NotForSale, NothingChosen, StudioMissing, SubmissionChanged
from bookings.orders.models import Order
from bookings.orders.wishes import Wish
from bookings.pricing.models import SizePrice
from bookings.studio.models import Studio
from plates.bench.models import BenchJob, PlateSize
from plates.errors import BenchFull
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
MINUTE = timedelta(minutes=1)


@pytest.fixture
def day():
    """A day of a bench with hands enough and room for one sitter, so that no two begin at once, however it plans."""
    return builders.a_day(bench=builders.a_bench(operators=2, tank_places=2, sitters_at_once=1))


def job_of(order):
    return BenchJob.objects.get(pk=order.sitting.bench_job_id)


def test_a_held_order_has_its_lines_at_the_prices_of_the_day_and_each_plate_its_place(day):
    order = builders.a_held_order(day, sizes=("half", "quarter"), extras={builders.an_extra(): 2})

    kept = [
        (line.position, line.text, line.quantity, line.unit_amount, line.slot and line.slot.position)
        for line in order.lines.all()
    ]
    assert kept == [
        (1, "half plate", 1, 12500, 1),
        (2, "quarter plate", 1, 8500, 2),
        (3, "Velvet case", 2, 3000, None),
    ]


def test_a_hold_is_kept_as_long_as_the_studio_says(day):
    builders.a_studio(hold_minutes=7)

    order = builders.a_held_order(day)

    assert job_of(order).held_until == NOW + 7 * MINUTE


def test_a_hold_is_never_kept_past_its_start(day):
    order = builders.a_held_order(day, now=TEN - 5 * MINUTE)

    assert job_of(order).held_until == TEN


def test_the_same_form_sent_twice_holds_one_place(day):
    key = uuid4()
    first = builders.a_held_order(day, submission_key=key)

    again = builders.a_held_order(day, submission_key=key)

    assert again == first
    assert (Order.objects.count(), BenchJob.objects.count()) == (1, 1)


@pytest.mark.parametrize("other", [{"sizes": ("half",)}, {"at": time(12)}])
def test_the_same_form_with_another_wish_is_refused(day, other):
    key = uuid4()
    builders.a_held_order(day, submission_key=key)

    with pytest.raises(
        SubmissionChanged,
        match=r"^This form was already sent with another wish\. Choose a time for this one again",
    ):
        builders.a_held_order(day, submission_key=key, **other)

    assert Order.objects.count() == 1


def test_two_forms_cannot_hold_the_same_place(day):
    builders.a_held_order(day)

    with pytest.raises(BenchFull, match=r"^The room is full of sitters from 10:00"):
        builders.a_held_order(day)

    assert Order.objects.count() == 1


def test_a_day_that_is_not_published_is_not_for_sale():
    hidden = builders.a_day(published=False)

    with pytest.raises(NotForSale, match=r"^This day is not open for booking\. Choose another one\.$"):
        builders.a_held_order(hidden)


def test_a_size_without_a_price_is_not_for_sale_and_holds_nothing(day):
    builders.a_size("quarter")
    SizePrice.objects.all().update(holds_from=date(2027, 1, 1))
    wish = Wish(sizes=[PlateSize.objects.get(name="quarter")])

    with pytest.raises(
        NotForSale, match=r"^quarter plates are not for sale on 28 November 2026\. Choose another size"
    ):
        booking.hold_sitting(submission_key=uuid4(), day_id=day.pk, starts_at=TEN, wish=wish, now=NOW)

    assert not BenchJob.objects.exists()


@pytest.mark.parametrize("count", [0, 7])
def test_a_wish_is_one_to_six_plates(count):
    with pytest.raises(NothingChosen, match=r"^Choose between one and 6 plates for a sitting\.$"):
        Wish(sizes=[PlateSize()] * count)


def test_without_a_studio_nothing_can_be_booked(day):
    Studio.objects.all().delete()

    with pytest.raises(
        StudioMissing, match=r"^Enter the studio's name, address and currency before taking bookings"
    ):
        builders.a_held_order(day)
