"""The walk-up line as people join it, wait in it and leave it."""

import re
from datetime import date, time, timedelta

import pytest
from django.test import Client
from django.urls import reverse

from bookings.walkups import links as line_links
from bookings.walkups.models import LinePlace
from bookings.walkups.services import line
from tests import builders
from tests.bookings.walkups.asking import TEN, filled, join_address, own_page, page
from tests.reading.pages import Page

pytestmark = pytest.mark.django_db


def test_who_joins_sees_a_number_and_who_is_before(client, stall):
    builders.a_line_place(stall, name="Otto")

    response = client.post(join_address(stall), filled(), follow=True)

    text = Page(response).text
    assert "Your number 2 1 waits before you" in text
    assert "Your turn: between" in text


def test_a_phone_shows_its_number_on_the_form_again(client, stall):
    client.post(join_address(stall), filled())

    assert "You have number 1 : Ines, quarter plate" in Page(client.get(join_address(stall))).text


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"name": " "}, "Write the name that you will be called by."),
        ({"name": "www.example.org/win"}, "Write a name of letters only, such as Ines or Anne-Marie."),
        ({"name": "a" * 25}, "Write a name of at most 24 letters; a first name will do."),
        ({"size": ""}, "Choose one of the plates."),
        ({"size": "99999"}, "That plate cannot be had here. Choose one of those shown."),
        ({"calling": ""}, "Tick this box: without a name nobody can be called."),
    ],
)
def test_what_is_wrong_with_the_form_is_said(client, stall, changes, sentence):
    response = client.post(join_address(stall), filled(**changes))

    assert response.status_code == 400
    assert sentence in Page(response).errors


@pytest.mark.parametrize("name", ["Anne-Marie", "D’Arcy", "Łucja", "Jean Luc", "Øyvind B."])
def test_names_of_any_script_may_be_called(client, stall, name):
    client.post(join_address(stall), filled(name=name))

    assert LinePlace.objects.get().name == name


def test_one_phone_stands_in_line_three_times_at_most(client, stall):
    for _ in range(3):
        client.post(join_address(stall), filled())

    response = client.post(join_address(stall), filled())

    assert response.status_code == 409
    assert "You stand in line 3 times already. Ask at the desk for more." in Page(response).text


def test_a_form_sent_twice_from_a_phone_is_one_place(client, stall):
    twice = filled()
    for _ in range(2):
        client.post(join_address(stall), twice)

    assert LinePlace.objects.count() == 1


def test_a_full_line_says_so_kindly_and_names_the_next_day(client, stall, clock):
    builders.a_day(on=date(2026, 12, 5), bench=stall.bench_day.bench, venue=stall.venue)
    clock.move_to(TEN + timedelta(hours=7, minutes=50))

    response = client.post(join_address(stall), filled())

    text = Page(response).text
    assert response.status_code == 409
    assert "The line is full for today" in text
    assert "Saturday, 5 December 2026" in text or "5 December 2026" in text


def test_a_plate_that_does_not_fit_the_tank_is_not_offered(client, stall):
    stall.bench_day.bench.largest_size = builders.a_size("quarter")
    stall.bench_day.bench.save()

    offered = client.get(join_address(stall)).content.decode()

    assert "sixth" in offered
    assert "whole" not in offered


def test_before_and_after_its_hours_nobody_can_join(client, stall, clock):
    for away in (timedelta(hours=-2), timedelta(hours=9)):
        clock.move_to(TEN + away)
        found = page(client, "line_join", line_links.line_token(stall))
        assert "The line is not open now." in found.text
        assert "name" not in found.fields


def test_the_call_is_seen_on_ones_own_page(photographer, stall):
    place = builders.a_line_place(stall)

    photographer.post(reverse("studio:line_call", args=[place.pk]))

    assert "Come to the tent now. You were called at 10:00." in own_page(Client(), place)


def test_the_minutes_are_fewer_when_somebody_ahead_leaves(client, stall):
    builders.a_line_place(stall, name="Otto")
    place = builders.a_line_place(stall)
    pattern = r"That is in (\d+) to (\d+) minutes"
    earlier = [int(found) for found in re.search(pattern, own_page(client, place)).groups()]
    line.leave(place_id=LinePlace.objects.get(number=1).pk, now=TEN)

    assert earlier[0] > 0
    assert "That is within" in own_page(client, place)


def test_leaving_is_a_press_and_forgets_the_name(client, stall):
    place = builders.a_line_place(stall)

    response = client.post(reverse("line_leave", args=[line_links.place_token(place)]), follow=True)

    assert "You have left the line." in Page(response).text
    assert LinePlace.objects.get().name == ""


def test_ones_own_page_shows_no_name_of_anybody(client, stall):
    builders.a_line_place(stall, name="Ottokar")
    place = builders.a_line_place(stall, name="Filomena")

    text = own_page(client, place)

    assert "Ottokar" not in text
    assert "Filomena" not in text


def test_a_line_on_a_day_by_daylight_ends_with_the_light(client, clock):
    """Lisbon at 38.7 N: on 28 November the sun sets about 17:15 (daylight tests name the almanac)."""
    venue = builders.a_venue(latitude="38.70000", longitude="-9.10000")
    opened = builders.a_day(
        venue=venue, bench=builders.a_bench(sitters_at_once=1), closes=time(20), racks_empty_by=time(23)
    )
    opened.by_daylight = True
    opened.save()
    clock.move_to(TEN + timedelta(hours=6))
    builders.a_size("quarter")
    line.open_or_close(day_id=opened.pk, keeps=True)

    response = client.post(join_address(opened), filled())

    assert response.status_code == 409
    assert "The line is full for today" in Page(response).text
