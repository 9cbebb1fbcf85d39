"""Pressing a start time: held once, given back for another one, refused with the reason and the other times."""

import pytest
from django.urls import reverse

from bookings.diary.models import SittingDay
from bookings.orders.models import Order
from plates.bench.models import BenchJob, PlateSize
from tests import builders
from tests.builders import NOW
from tests.reading.pages import Page
from tests.reading.wishes import TEN, held_by, hold, wished

pytestmark = pytest.mark.django_db


def test_a_day_that_is_not_kept_is_refused_with_the_other_times(client, day):
    response = hold(client, start=f"{day.pk + 1} {TEN}")

    page = Page(response)
    assert response.status_code == 409
    assert "That day is no longer kept. Choose another one." in page.text
    assert f"{day.pk} {TEN}" in page.buttons


def test_a_day_that_is_not_open_is_refused(client, day):
    SittingDay.objects.update(published=False)

    response = hold(client, start=f"{day.pk} {TEN}")

    assert response.status_code == 409
    page = Page(response)
    assert "This day is not open for booking. Choose another one." in page.text
    assert page.fields[f"size_{PlateSize.objects.get(name='quarter').pk}"] == "1"


@pytest.mark.parametrize(
    ("start", "sentence"),
    [
        ("2026-11-28T10:00:30+00:00", "A sitting starts on a whole minute."),
        ("2026-11-20T08:59:00+00:00", "That start time has passed. Choose a later one."),
        ("0001-01-01T00:00:00+23:59", "That start time has passed. Choose a later one."),
        ("2026-11-28T10:07:00+00:00", "No sitting starts at 10:07."),
        ("2026-11-28T09:45:00+00:00", "The studio opens at 10:00."),
        ("2026-11-28T17:45:00+00:00", "and the studio closes at 18:00."),
        ("2126-11-28T10:00:00+00:00", "and the studio closes at 18:00."),
    ],
)
def test_a_start_that_cannot_be_is_refused_with_the_reason_and_the_other_times(client, day, start, sentence):
    response = hold(client, start=f"{day.pk} {start}")

    page = Page(response)
    assert response.status_code == 409
    assert sentence in page.text
    assert f"{day.pk} {TEN}" in page.buttons
    assert not Order.objects.exists()


def test_a_taken_start_is_said_on_the_clock_of_the_venue(client, day):
    """Azores: one hour behind UTC in winter (tz database, Atlantic/Azores)."""
    islands = builders.a_day(
        zone="Atlantic/Azores", bench=builders.a_bench(name="Island bench", sitters_at_once=1)
    )
    eleven_utc = "2026-11-28T11:00:00+00:00"
    builders.a_paid_order(islands)

    response = hold(client, start=f"{islands.pk} {eleven_utc}")

    assert response.status_code == 409
    assert "The room is full of sitters from 10:" in Page(response).text


def test_the_same_form_sent_twice_is_one_order_and_both_answers_lead_to_its_page(client, day, clock):
    wish = wished(start=f"{day.pk} {TEN}")
    first = client.post(reverse("hold"), wish)
    clock.shift(2)

    second = client.post(reverse("hold"), wish)

    assert Order.objects.count() == 1
    assert held_by(first) == held_by(second)
    assert client.get(second.url).status_code == 200


def test_the_same_key_with_another_wish_is_refused_and_the_new_wish_is_kept(client, day):
    wish = wished(start=f"{day.pk} {TEN}")
    client.post(reverse("hold"), wish)
    half = f"size_{PlateSize.objects.get(name='half').pk}"

    response = client.post(reverse("hold"), wish | {half: "2"})

    page = Page(response)
    assert response.status_code == 409
    assert "This form was already sent with another wish. Choose a time for this one again." in page.text
    assert page.fields[half] == "2"
    assert page.fields["submission_key"] != wish["submission_key"]
    assert Order.objects.count() == 1


def test_the_page_that_refused_another_wish_can_be_sent(client, day):
    wish = wished(start=f"{day.pk} {TEN}")
    first = held_by(client.post(reverse("hold"), wish))
    refused = Page(client.post(reverse("hold"), wish | {"start": f"{day.pk} 2026-11-28T14:00:00+00:00"}))

    second = held_by(client.post(reverse("hold"), refused.fields | {"start": refused.buttons[-1]}))

    assert second != first
    assert list(BenchJob.objects.promised(NOW)) == [second.sitting.bench_job]


def test_holding_another_time_gives_the_first_one_back(client, day):
    first = held_by(hold(client, start=f"{day.pk} {TEN}"))

    second = held_by(hold(client, start=f"{day.pk} 2026-11-28T14:00:00+00:00"))

    assert first != second
    assert list(BenchJob.objects.promised(NOW)) == [second.sitting.bench_job]


def test_the_page_of_a_time_that_was_given_back_says_so(client, day):
    first = hold(client, start=f"{day.pk} {TEN}")
    hold(client, start=f"{day.pk} 2026-11-28T14:00:00+00:00")

    response = client.get(first.url)

    assert response.status_code == 410
    assert "This time was given back. Choose a new one on the first page." in Page(response).text


def test_another_visitor_takes_no_place_from_the_first(client, day):
    first = held_by(hold(client, start=f"{day.pk} {TEN}"))
    client.cookies.clear()

    second = held_by(hold(client, start=f"{day.pk} 2026-11-28T14:00:00+00:00"))

    assert list(BenchJob.objects.promised(NOW)) == [first.sitting.bench_job, second.sitting.bench_job]
