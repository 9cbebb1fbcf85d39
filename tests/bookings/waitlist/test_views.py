"""Waiting for a place without script: from the page of the times onto the list, and off it again."""

from datetime import time, timedelta
from uuid import uuid4

import pytest
from django.urls import reverse

from bookings.orders import links
from bookings.waitlist import links as waiting_links
from bookings.waitlist import services as waiting
from bookings.waitlist.models import Waiting
from bookings.waitlist.selectors import State, state_of, with_orders
from plates.bench.models import PlateSize
from tests import builders
from tests.builders import NOW
from tests.reading.pages import Page

pytestmark = pytest.mark.django_db


@pytest.fixture
def full_day():
    """A day with one place, which is sold."""
    bench = builders.a_bench(operators=9, tank_places=9, wash_places=30, sitters_at_once=1)
    day = builders.a_day(bench=bench, closes=time(11), racks_empty_by=time(14), start_every=60)
    builders.a_paid_order(day)
    return day


def wish(day, **changes):
    """What the page of the times passes on for one quarter plate."""
    return {f"size_{PlateSize.objects.get(name='quarter').pk}": "1", "day": day.pk} | changes


def filled(day, **changes):
    fields = {"name": "Ottilie Marrow", "email": "ottilie@example.org", "key": str(uuid4())}
    return wish(day) | fields | {"earliest": "10:00", "latest": "11:00"} | changes


def ask(client, day, **changes):
    return client.post(reverse("wait"), filled(day, **changes))


def test_a_full_day_leads_to_its_list_with_the_wish_along(client, full_day):
    page = Page(client.get(reverse("times"), wish(full_day)))
    [link] = [each for each in page.links if each.startswith(reverse("wait"))]

    form = Page(client.get(link))

    assert "Wait for a place" in form.text
    assert (form.fields["earliest"], form.fields["latest"]) == ("10:00", "11:00")
    assert form.fields[f"size_{PlateSize.objects.get(name='quarter').pk}"] == "1"


def test_asking_puts_the_wish_and_its_hours_on_the_list(client, full_day):
    answer = ask(client, full_day)

    place = Waiting.objects.get()
    assert (answer.status_code, answer.url.partition("?")[0]) == (302, reverse("times"))
    assert place.wish["sizes"] == [PlateSize.objects.get(name="quarter").pk]
    assert (place.earliest, place.latest) == tuple(
        NOW.replace(day=28, hour=hour) for hour in (10, 11)
    )  # Lisbon keeps UTC in winter


def test_an_address_that_is_on_the_list_already_gets_the_same_answer(client, full_day):
    first, second = ask(client, full_day), ask(client, full_day)

    assert (first.status_code, first.url) == (second.status_code, second.url)
    assert Waiting.objects.count() == 1


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"email": "ottilie"}, "Write an address such as name@example.org."),
        ({"name": " "}, "Write your name."),
        ({"earliest": "soon"}, "Write the first hour that suits you, such as 10:00."),
        ({"earliest": "11:00", "latest": "10:00"}, "The last hour comes before the first one."),
    ],
    ids=["no address", "no name", "no hour", "hours turned round"],
)
def test_a_form_that_cannot_be_used_says_why_at_its_field(client, full_day, changes, words):
    answer = ask(client, full_day, **changes)

    assert answer.status_code == 400
    assert Page(answer).errors == [words]
    assert Waiting.objects.count() == 0


def test_while_something_is_free_the_page_says_what(client, full_day):
    free = builders.a_day(on=builders.SATURDAY + timedelta(days=1))

    answer = ask(client, free)

    assert answer.status_code == 409
    assert "10:00 is free on that day." in Page(answer).text


@pytest.mark.parametrize("changes", [{"day": 0}, {"day": "x"}], ids=["no day", "no number"])
def test_a_day_that_is_not_kept_leads_back_to_the_plates(client, full_day, changes):
    answer = client.get(reverse("wait"), wish(full_day) | changes)

    assert answer.status_code == 400
    assert "That day is no longer kept." in Page(answer).text


def test_a_page_that_is_looked_at_puts_nobody_on_the_list(client, full_day):
    client.get(reverse("wait"), filled(full_day))

    assert Waiting.objects.count() == 0


def test_an_offer_leads_to_the_pages_of_every_booking(client, full_day):
    place = builders.a_waiting(builders.a_day(on=builders.SATURDAY + timedelta(days=1)))
    waiting.offer_freed(now=NOW)
    order = with_orders().get(pk=place.pk).order

    page = Page(client.get(waiting_links.path(place)))

    take = reverse("details", args=[links.checkout_token(order)])
    assert "is free and kept for you until" in page.text
    assert take in page.links
    assert client.get(take).status_code == 200


def test_leaving_needs_a_press_and_forgets_the_name(client, full_day):
    place = builders.a_waiting(full_day)
    path = waiting_links.path(place)
    client.get(path)
    before = Waiting.objects.get().left_at

    answer = client.post(f"{path}leave/", follow=True)

    assert before is None
    assert "You are not on the list any more." in Page(answer).text
    assert (Waiting.objects.get().name, Waiting.objects.get().email) == ("", "")


@pytest.mark.parametrize("state", ["waits", "lapsed", "over"])
def test_the_page_of_a_place_says_nothing_about_the_person(client, full_day, clock, state):
    place = builders.a_waiting(builders.a_day(on=builders.SATURDAY + timedelta(days=1)))
    if state == "lapsed":
        waiting.offer_freed(now=NOW)
    clock.move_to(NOW + timedelta(days={"waits": 0, "lapsed": 1, "over": 30}[state]))

    page = Page(client.get(waiting_links.path(place)))

    assert state_of(with_orders().get(pk=place.pk), now=NOW + timedelta(days=30)).value in {"lapsed", "over"}
    assert "Ottilie" not in page.text


def test_the_studio_sees_who_waits_and_strikes_off(photographer, full_day):
    place = builders.a_waiting(full_day)
    page = Page(photographer.get(reverse("studio:waiting_list", args=[full_day.pk])))

    photographer.post(reverse("studio:waiting_strike", args=[place.pk]))

    assert "Ottilie Marrow" in page.text
    assert state_of(with_orders().get(pk=place.pk), now=NOW) == State.STRUCK
    after = Page(photographer.get(reverse("studio:waiting_list", args=[full_day.pk])))
    assert "Struck off" in after.text
