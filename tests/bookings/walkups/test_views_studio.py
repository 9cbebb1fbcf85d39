"""The walk-up line as the photographer keeps it, and the large page of the stall."""

import re

import pytest
from django.urls import reverse

from bookings.orders.models import Order
from bookings.walkups import links as line_links
from bookings.walkups.models import LinePlace
from bookings.walkups.services import line
from tests import builders
from tests.bookings.walkups.asking import TEN, filled, join_address, page
from tests.reading.pages import Page

pytestmark = pytest.mark.django_db


def test_the_large_page_shows_who_is_called_who_is_next_and_the_code(client, stall):
    first = builders.a_line_place(stall, name="Otto")
    builders.a_line_place(stall, name="Ines")
    line.call(place_id=first.pk, now=TEN)

    response = client.get(reverse("line_large", args=[line_links.line_token(stall)]))

    text = Page(response).text
    assert "Come to the tent now 1 Otto" in text
    assert "Next 2 Ines" in text
    assert 'aria-label="Code with the address of the line"' in response.content.decode()


def test_without_javascript_the_pages_of_the_stall_look_again_by_themselves(client, stall):
    place = builders.a_line_place(stall)
    tokens = {"line_large": line_links.line_token(stall), "line_place": line_links.place_token(place)}

    for name, token in tokens.items():
        assert (
            '<noscript><meta http-equiv="refresh"' in client.get(reverse(name, args=[token])).content.decode()
        )


def test_the_photographer_gives_a_number_at_the_desk(photographer, stall):
    response = photographer.post(reverse("studio:line", args=[stall.pk]), filled(name="Wren"), follow=True)

    assert "Wren has number 1." in Page(response).text
    assert LinePlace.objects.get().at_desk


def test_a_line_is_begun_and_ended_from_its_page(photographer, day):
    for keeps in ("yes", "no"):
        photographer.post(reverse("studio:line_keep", args=[day.pk]), {"keeps": keeps})
        day.refresh_from_db()
        assert day.keeps_line is (keeps == "yes")


def test_who_has_come_becomes_an_order_in_the_queue_with_its_balance(photographer, stall):
    place = builders.a_line_place(stall, name="Wren")
    photographer.post(reverse("studio:line_call", args=[place.pk]))
    details = {"name": "Wren Achterberg", "email": "wren@example.org", "cautions": "on"}

    response = photographer.post(reverse("studio:line_come", args=[place.pk]), details)

    order = Order.objects.get()
    assert response.url == reverse("studio:order", args=[order.reference])
    queue = page(photographer, "studio:day", stall.pk).text
    assert "Wren Achterberg" in queue
    assert "€85.00 owed" in queue


def test_details_that_are_missing_are_asked_for_again(photographer, stall):
    place = builders.a_line_place(stall)
    line.call(place_id=place.pk, now=TEN)

    response = photographer.post(reverse("studio:line_come", args=[place.pk]), {"name": "Wren"})

    assert response.status_code == 400
    assert "Write the address that your letters go to." in Page(response).errors


def test_striking_off_can_be_taken_back_from_the_line(photographer, stall):
    place = builders.a_line_place(stall, name="Wren")
    line.call(place_id=place.pk, now=TEN)
    photographer.post(reverse("studio:line_strike", args=[place.pk]))
    struck = page(photographer, "studio:line", stall.pk).text

    photographer.post(reverse("studio:line_take_back", args=[place.pk]))

    assert "Did not come 1 Wren struck off at 10:00" in struck
    assert "Waiting 1 Wren" in page(photographer, "studio:line", stall.pk).text


def test_a_refused_press_is_said_above_the_line(photographer, stall):
    place = builders.a_line_place(stall)

    response = photographer.post(reverse("studio:line_strike", args=[place.pk]), follow=True)

    assert "Call before striking anybody off." in Page(response).text


def test_the_line_counts_no_more_queries_for_more_people(photographer, stall, django_assert_max_num_queries):
    for name in ("Otto", "Ines", "Wren", "Ada", "Bo", "Cy"):
        builders.a_line_place(stall, name=name)

    with django_assert_max_num_queries(20):
        page(photographer, "studio:line", stall.pk)


def test_the_code_has_the_three_corners_and_the_quiet_zone_of_the_standard(photographer, stall, settings):
    """ISO/IEC 18004: a quiet zone of 4 dots, and squares of 7 dots in three corners (from memory)."""
    settings.SITE_ADDRESS = "https://rooms.example.org"
    drawn = photographer.get(reverse("studio:line_sheet", args=[stall.pk])).content.decode()
    side = int(re.search(r'<div class="code[^>]*><svg viewBox="0 0 (\d+) ', drawn).group(1))
    strokes = re.search(r'stroke="#000" d="M4 4\.5h7', drawn)

    assert strokes
    assert (side - 8 - 17) % 4 == 0
    assert f"https://rooms.example.org{join_address(stall)}" in drawn
