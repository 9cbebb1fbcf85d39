"""Putting a name to a held order: kept until the deposit is due, taken anew when the hold has lapsed."""

from datetime import UTC, datetime, timedelta

import pytest

from bookings.changes.services import sittings
from bookings.checkout.services import booking
from bookings.errors import OrderCancelled
from bookings.orders.models import Client, ConsentPurpose, Order
from bookings.orders.services.placing import Details
from bookings.outbox.models import Notice
from bookings.pricing.models import Terms
from plates.bench.models import BenchJob
from plates.errors import BenchFull, JobReleased, StartPassed
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
    Terms.objects.update(deposit_share_bp=0)
    order = builders.a_held_order(day)

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
