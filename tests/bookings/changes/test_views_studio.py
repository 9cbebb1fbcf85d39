"""Cancelling, moving and making a sitting again on the photographer's side: what it costs stands there before."""

from datetime import UTC, date, datetime

import pytest
from django.urls import reverse

from bookings.orders.models import Order
from bookings.pricing.models import Terms
from plates.bench.models import PlateSlot, Stage
from plates.ledger.services import events as ledger
from tests import builders
from tests.reading.pages import Page

pytestmark = pytest.mark.django_db

TWO = "2026-11-28T14:00:00+00:00"
LATE = datetime(2026, 11, 27, 10, 0, tzinfo=UTC)  # inside the last 48 hours
HALF_PAST = datetime(2026, 11, 28, 10, 30, tzinfo=UTC)


@pytest.fixture
def order(day):
    Terms.objects.update(late_move_bp=2000)
    return builders.a_paid_order(day)


@pytest.fixture
def late(clock):
    """Too late for a free change; named before the photographer, who signs in after it."""
    clock.move_to(LATE)


@pytest.fixture
def half_past(clock):
    clock.move_to(HALF_PAST)


def page_of(order, name):
    return reverse(f"studio:{name}", args=[order.reference])


def stored(order):
    return Order.objects.get(pk=order.pk)


def without_a_plate(order):
    slot = PlateSlot.objects.get(job=order.sitting.bench_job_id)
    plate = builders.made_plate(slot, Stage.POURED, HALF_PAST)
    ledger.spoil(plate_id=plate.pk, reason="fogged", note="", operator=None, now=HALF_PAST)


def test_the_cancel_page_says_what_each_reason_keeps(late, photographer, order):

    page = Page(photographer.get(page_of(order, "cancel")))

    assert "The client cancelled €42.50 €0.00 The studio cancelled €0.00 €42.50" in page.text
    assert (page.fields["kept"], page.fields["cause"]) == ("4250", None)


def test_the_studio_cancels_and_keeps_nothing(late, photographer, order):

    response = photographer.post(page_of(order, "cancel"), {"cause": "studio", "kept": "4250"}, follow=True)

    assert (stored(order).cancel_cause, stored(order).kept) == ("studio", 0)
    page = Page(response)
    assert "€42.50 is to be given back." in page.text
    assert page.fields["amount"] == "42.50"


def test_a_cancellation_that_became_dearer_is_looked_at_again(late, photographer, order):

    response = photographer.post(page_of(order, "cancel"), {"cause": "client", "kept": "0"}, follow=True)

    assert "By the terms this now costs €42.50, not €0.00 as was shown before." in Page(response).text
    assert stored(order).cancelled_at is None


@pytest.mark.parametrize("cause", ["", "no_plate", "weather"])
def test_a_cancellation_needs_one_of_its_reasons(photographer, order, cause):
    response = photographer.post(page_of(order, "cancel"), {"cause": cause})

    assert response.status_code == 400
    assert len(Page(response).errors) == 1
    assert stored(order).cancelled_at is None


def test_the_move_page_says_what_a_late_change_costs_and_the_move_adds_it(late, photographer, day, order):
    page = Page(photographer.get(page_of(order, "move")))
    assert "a change that the client asks for now costs €8.50" in page.text

    sent = {"start": f"{day.pk} {TWO}", "asked_by": page.fields["asked_by"], "price": page.fields["price"]}
    response = photographer.post(page_of(order, "move"), sent, follow=True)

    assert "Late change of time €8.50" in Page(response).text


def test_a_change_that_the_studio_asked_for_costs_nothing(late, photographer, day, order):

    sent = {"start": f"{day.pk} {TWO}", "asked_by": "studio", "price": "850"}
    photographer.post(page_of(order, "move"), sent)

    assert stored(order).sitting.bench_job.starts_at.isoformat() == TWO
    assert stored(order).lines.count() == 1


def test_a_change_in_the_free_time_says_that_it_is_free(photographer, order):
    page = Page(photographer.get(page_of(order, "move")))

    assert "The change costs nothing until Thursday 26 November 2026, 10:00." in page.text


def test_an_order_without_a_plate_offers_what_the_terms_say(half_past, photographer, order):
    without_a_plate(order)

    page = Page(photographer.get(page_of(order, "order")))

    assert "Every plate of this sitting was given up." in page.text
    assert page_of(order, "rebook") in page.links
    assert page_of(order, "cancel") in page.links
    assert page_of(order, "move") not in page.links


def test_another_sitting_is_chosen_from_the_free_starts(half_past, photographer, day, order):
    without_a_plate(order)
    sunday = builders.a_day(on=date(2026, 11, 29), bench=day.bench_day.bench)
    start = f"{sunday.pk} 2026-11-29T10:00:00+00:00"
    assert start in Page(photographer.get(page_of(order, "rebook"))).buttons

    response = photographer.post(page_of(order, "rebook"), {"start": start})

    assert response.url == page_of(order, "order")
    assert stored(order).sitting.day == sunday


def test_a_sitting_with_a_plate_is_not_made_again(photographer, day, order):
    response = photographer.post(page_of(order, "rebook"), {"start": f"{day.pk} {TWO}"})

    assert response.status_code == 409
    assert "No plate of this sitting was poured yet." in Page(response).text


def test_a_sitting_without_a_plate_is_cancelled_and_paid_back(half_past, photographer, order):
    without_a_plate(order)
    page = Page(photographer.get(page_of(order, "cancel")))
    assert page.fields["cause"] == "no_plate"

    response = photographer.post(page_of(order, "cancel"), {"cause": "no_plate"}, follow=True)

    assert (stored(order).cancel_cause, stored(order).kept) == ("no_plate", 0)
    assert "€42.50 is to be given back." in Page(response).text


def test_the_queue_names_what_is_to_be_given_back(photographer, day, order):
    photographer.post(page_of(order, "cancel"), {"cause": "studio"})

    page = Page(photographer.get(reverse("studio:day", args=[day.pk])))

    assert f"€42.50 is to be given back for the cancelled order {order.reference} ." in page.text


def test_more_than_was_paid_is_not_given_back(photographer, order):
    sent = {"direction": "returned", "amount": "42.51", "method": "cash", "key": "0" * 32}

    response = photographer.post(page_of(order, "order"), sent)

    assert Page(response).errors == [
        "€42.51 is more than was paid for this order: €42.50 at most can be given back."
    ]
