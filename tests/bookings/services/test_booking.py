"""From a wish to a placed order."""

from datetime import UTC, date, datetime, time, timedelta
from uuid import uuid4

import pytest

from bookings.errors import (
    NotForSale,
    NothingChosen,
    OrderCancelled,
    StudioMissing,
    SubmissionChanged,
)
from bookings.models import Client, ConsentPurpose, Notice, Order, SizePrice, Studio
from bookings.services import booking, sittings
from bookings.services.booking import Details, Wish
from plates.errors import BenchFull, JobReleased, StartPassed
from plates.models import BenchJob, PlateSize
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
MINUTE = timedelta(minutes=1)


@pytest.fixture
def day():
    """A day of a bench with hands enough and room for one sitter, so that no two begin at once, however it plans."""
    return builders.a_day(bench=builders.a_bench(operators=2, tank_places=2, sitters_at_once=1))


def placed(order, *, now=NOW, **how):
    details = Details(
        name="Ines Madrugada", email="ines@example.org", phone="", consents={ConsentPurpose.SHOW: True}
    )
    return booking.place_order(order_id=order.pk, details=details, now=now, **how)


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
        SubmissionChanged, match=r"^This form was already sent with another wish\. Start again from"
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


def test_placing_puts_a_name_to_the_order_and_keeps_the_words_that_were_agreed_to(day):
    order = placed(builders.a_held_order(day))

    client = order.client
    assert (client.name, client.email, order.placed_at) == ("Ines Madrugada", "ines@example.org", NOW)
    consents = client.consents.values_list("purpose", "given", "wording")
    assert list(consents) == [("show", True, "Show my portrait in the studio and its portfolio")]
    assert Order.objects.get(pk=order.pk).sitting.cautions_read_at == NOW


def test_a_placed_order_is_held_until_the_deposit_is_due_and_the_client_is_asked_for_it(day):
    builders.a_studio(deposit_hours=24)

    order = placed(builders.a_held_order(day))

    assert job_of(order).held_until == NOW + timedelta(hours=24)
    assert job_of(order).confirmed_at is None
    # Three minutes later, so that nobody is asked by letter for what is being paid on the next page.
    assert list(Notice.objects.values_list("kind", "due_at")) == [("deposit_due", NOW + 3 * MINUTE)]


def test_a_place_is_never_held_for_a_deposit_past_its_start(day):
    day_before = TEN - timedelta(hours=20)
    order = placed(builders.a_held_order(day, now=day_before), now=day_before)

    assert job_of(order).held_until == TEN


def test_where_no_deposit_is_asked_placing_confirms_at_once(day):
    order = builders.a_held_order(day)
    order.terms.deposit_share_bp = 0
    order.terms.save()

    placed(order)

    assert job_of(order).confirmed_at == NOW
    assert list(Notice.objects.values_list("kind", flat=True)) == ["confirmed"]


def test_placing_twice_keeps_one_client_and_one_letter(day):
    order = builders.a_held_order(day)
    placed(order)

    again = placed(order, now=NOW + MINUTE)

    assert again.placed_at == NOW
    assert (Client.objects.count(), Notice.objects.count()) == (1, 1)


def test_a_hold_that_lapsed_is_placed_all_the_same_while_its_place_is_free(day):
    order = builders.a_held_order(day)
    hours_later = NOW + timedelta(hours=3)

    placed(order, now=hours_later)

    assert job_of(order).held_until == hours_later + timedelta(hours=48)


def test_a_hold_that_lapsed_and_was_taken_by_another_is_refused_and_keeps_no_name(day):
    order = builders.a_held_order(day)
    builders.a_held_order(day, now=NOW + 21 * MINUTE)

    with pytest.raises(BenchFull, match=r"^The room is full of sitters from 10:00 to 10:14\. 10:15"):
        placed(order, now=NOW + 22 * MINUTE)

    assert Order.objects.get(pk=order.pk).placed_at is None
    assert not Client.objects.exists()


def test_a_lapsed_order_can_be_placed_at_another_start_of_its_day(day):
    order = builders.a_held_order(day)
    builders.a_held_order(day, now=NOW + 21 * MINUTE)
    later = NOW + 22 * MINUTE

    placed(order, now=later, another_start=TEN + timedelta(hours=1))

    job = job_of(order)
    assert (job.starts_at, job.held_until) == (TEN + timedelta(hours=1), later + timedelta(hours=48))
    assert job.counts(later)


def test_an_order_is_not_placed_after_its_start(day):
    order = builders.a_held_order(day)

    with pytest.raises(StartPassed, match=r"^That start time has passed"):
        placed(order, now=TEN)


def test_a_cancelled_order_is_not_placed(day):
    order = builders.a_held_order(day)
    sittings.cancel(order_id=order.pk, now=NOW)

    with pytest.raises(OrderCancelled, match=r"^This order was cancelled\. Book a new sitting instead\.$"):
        placed(order)


def test_a_dropped_hold_frees_its_place_and_cannot_be_placed(day):
    order = builders.a_held_order(day)

    booking.drop_hold(order_id=order.pk, now=NOW)

    builders.a_held_order(day)
    with pytest.raises(JobReleased, match=r"^This place was given back; book a new sitting instead\.$"):
        placed(order)


def test_an_order_that_was_placed_is_not_dropped(day):
    order = builders.a_placed_order(day)

    booking.drop_hold(order_id=order.pk, now=NOW)

    assert job_of(order).released_at is None
