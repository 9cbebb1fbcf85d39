"""Pages on a day by daylight: what they offer, what they say, what they refuse."""

from datetime import time, timedelta

import pytest
from django.urls import reverse

from bookings.diary.models import SittingDay
from bookings.orders import links
from bookings.orders.models import Order
from plates.bench.models import BenchJob
from tests import builders
from tests.builders import NOW
from tests.builders.daylight import a_lit_day, a_lit_venue
from tests.reading.pages import Page
from tests.reading.wishes import hold, wished

pytestmark = pytest.mark.django_db

TYPED = {"name": "Ines Madrugada", "email": "ines@example.org", "phone": "", "cautions": "on"}
TOO_LATE = "2026-11-28T15:00:00+00:00"
TOLD = "A sitting at 15:00 needs light until 15:23. Choose another time."


@pytest.fixture
def lit_day():
    builders.a_size("quarter")
    return a_lit_day(bench=builders.a_bench(sitters_at_once=1))


def clocks(page):
    return [button[-14:-9] for button in page.buttons]


def test_the_times_page_says_when_there_is_light_and_offers_no_other_start(client, lit_day):
    page = Page(client.get(reverse("times"), wished()))

    # The light is that of tests/builders/daylight.py, to a few minutes.
    assert "By daylight: from 09:" in page.text
    assert (clocks(page)[0], clocks(page)[-1]) == ("10:00", "14:30")


def test_a_start_without_light_is_refused_with_the_other_times(client, lit_day):
    response = hold(client, start=f"{lit_day.pk} {TOO_LATE}")

    page = Page(response)
    assert response.status_code == 409
    assert TOLD in page.text
    assert f"{lit_day.pk} 2026-11-28T14:30:00+00:00" in page.buttons
    assert not Order.objects.exists()


def test_a_day_on_which_the_sun_stays_low_says_what_keeps_the_plates_out(client, lit_day):
    SittingDay.objects.update(sun_height=31)

    page = Page(client.get(reverse("times"), wished()))

    assert "By daylight: the sun does not stand high enough on this day." in page.text
    assert "What keeps them out: daylight." in page.text


def test_another_start_without_light_is_refused_and_everything_typed_is_kept(client, lit_day):
    order = builders.a_held_order(lit_day, at=time(12))

    response = client.post(
        reverse("details", args=[links.checkout_token(order)]), TYPED | {"start": f"{lit_day.pk} {TOO_LATE}"}
    )

    page = Page(response)
    assert response.status_code == 409
    assert TOLD in page.text
    assert page.fields["name"] == "Ines Madrugada"


def test_a_place_that_has_gone_is_offered_again_only_where_there_is_light(client, lit_day, clock):
    order = builders.a_held_order(lit_day, at=time(14, 30))
    clock.shift(60 * 60)  # the hold lapses, and somebody else takes its place
    builders.a_paid_order(lit_day, at=time(14, 30), now=NOW + timedelta(hours=1))

    response = client.post(reverse("details", args=[links.checkout_token(order)]), TYPED)

    assert response.status_code == 409
    offered = clocks(Page(response))
    assert len(offered) == 3
    assert max(offered) < "14:30"


def test_a_sitting_is_not_moved_to_a_start_without_light(photographer, lit_day):
    order = builders.a_paid_order(lit_day, at=time(12))

    response = photographer.post(
        reverse("studio:move", args=[order.reference]), {"start": f"{lit_day.pk} {TOO_LATE}"}
    )

    page = Page(response)
    assert response.status_code == 409
    assert TOLD in page.text
    assert "By daylight: from 09:" in page.text
    assert BenchJob.objects.get().starts_at.hour == 12


def test_the_planner_opens_a_day_by_daylight_and_says_when_there_is_light(photographer, lit_day):
    sent = {
        "venue": lit_day.venue_id, "bench": lit_day.bench_day.bench_id, "on": "2026-11-29",
        "opens": "10:00", "closes": "18:00", "racks_empty_by": "19:15", "start_every": "15",
        "by_daylight": "on", "sun_height": "20",
    }  # fmt: skip

    response = photographer.post(reverse("studio:planner"), sent)

    opened = SittingDay.objects.get(bench_day__on="2026-11-29")
    assert (opened.by_daylight, opened.sun_height) == (True, 20)
    shown = Page(photographer.get(response.url)).text
    assert "By daylight: from 09:" in shown
    assert "14:15, 14:30 " in shown
    assert Page(photographer.get(reverse("studio:planner"))).text.count("By daylight: from 09:") == 2


@pytest.mark.parametrize(
    ("venue", "height", "sentence"),
    [
        (builders.a_venue, "10", "Enter the latitude and longitude of Gannet Lane under Set-up first."),
        (a_lit_venue, "", "Say how high the sun has to stand, or leave daylight out."),
        (a_lit_venue, "91", "Ensure this value is less than or equal to 90."),
        (a_lit_venue, "-7", "Ensure this value is greater than or equal to -6."),
        (a_lit_venue, "low", "Enter a number."),
    ],
)
def test_a_day_by_daylight_that_cannot_be_is_not_opened(photographer, venue, height, sentence):
    sent = {
        "venue": venue().pk, "bench": builders.a_bench().pk, "on": "2026-11-29",
        "opens": "10:00", "closes": "18:00", "racks_empty_by": "19:15", "start_every": "15",
        "by_daylight": "on", "sun_height": height,
    }  # fmt: skip

    response = photographer.post(reverse("studio:planner"), sent)

    assert response.status_code == 400
    assert Page(response).errors == [sentence]
    assert not SittingDay.objects.exists()
