"""Marks on a sitter and presses taken back, as the photographer presses them; what a second screen is told."""

from datetime import UTC, datetime, timedelta

import pytest
from django.urls import reverse

from bookings.orders.models import Sitting
from plates.bench.models import Plate, PlateSlot
from tests import builders
from tests.reading.pages import Page

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)


@pytest.fixture(autouse=True)
def ten(clock):
    """The day itself, at the promised start: a session of the week before would be over."""
    clock.move_to(TEN)


@pytest.fixture
def sitting(day):
    return builders.a_paid_order(day).sitting


def queue(photographer, day):
    return Page(photographer.get(reverse("studio:day", args=[day.pk]))).text


def mark(photographer, sitting, word):
    return photographer.post(reverse("studio:mark", args=[sitting.pk]), {"as": word}, follow=True)


def state(photographer, day):
    return photographer.get(reverse("studio:state", args=[day.pk])).json()["state"]


def test_a_sitter_who_is_late_is_said_to_be(photographer, day, sitting, clock):
    clock.shift(7 * 60)

    text = queue(photographer, day)

    assert "7 minutes late" in text
    assert "Did not come" in text


def test_before_the_time_nobody_can_be_marked_as_not_come(photographer, day, sitting, clock):
    clock.shift(-10 * 60)

    text = queue(photographer, day)

    assert "Arrived" in text
    assert "Did not come" not in text


def test_a_mark_is_shown_and_can_be_taken_back(photographer, day, sitting, clock):
    text = Page(mark(photographer, sitting, "arrived")).text
    assert "arrived at 10:00" in text
    assert "Take “arrived” back" in text

    photographer.post(reverse("studio:take_mark_back", args=[sitting.pk]))
    assert Sitting.objects.get().arrived_at is None


def test_a_refused_mark_says_why_above_the_queue(photographer, sitting, clock):
    mark(photographer, sitting, "arrived")

    response = mark(photographer, sitting, "absent")

    assert "This sitter has arrived. Take that mark back first" in Page(response).text


def test_a_press_can_be_taken_back_for_half_a_minute(photographer, day, sitting, clock):
    photographer.post(reverse("studio:pour", args=[PlateSlot.objects.get().pk]))
    assert "Take “poured” back" in queue(photographer, day)

    clock.shift(31)
    assert "Take “poured” back" not in queue(photographer, day)
    response = photographer.post(reverse("studio:take_back", args=[Plate.objects.get().pk]), follow=True)

    assert "A press can be taken back for 30 seconds; that time is over." in Page(response).text


def test_a_pour_taken_back_leaves_no_spoilt_plate_in_the_queue(photographer, day, sitting, clock):
    photographer.post(reverse("studio:pour", args=[PlateSlot.objects.get().pk]))

    photographer.post(reverse("studio:take_back", args=[Plate.objects.get().pk]))

    text = queue(photographer, day)
    assert "Spoilt before" not in text
    assert "Pour again" not in text


def test_what_is_next_stands_above_the_sittings(photographer, day, sitting, clock):
    photographer.post(reverse("studio:pour", args=[PlateSlot.objects.get().pk]))

    # Two minutes of pouring and at the most five in the bath (the defaults).
    assert "10:07 at the latest" in queue(photographer, day)


@pytest.mark.parametrize("act", ["mark", "pour", "pay", "book", "a minute"])
def test_a_second_screen_is_told_of_every_change(photographer, day, sitting, clock, act):
    before = state(photographer, day)
    assert state(photographer, day) == before

    acts = {
        "mark": lambda: mark(photographer, sitting, "arrived"),
        "pour": lambda: photographer.post(reverse("studio:pour", args=[PlateSlot.objects.get().pk])),
        "pay": lambda: builders.pay(sitting.order, 100, now=TEN),
        "book": lambda: builders.a_held_order(day, at=TEN + timedelta(hours=2), now=TEN),
        "a minute": lambda: clock.shift(60),
    }
    acts[act]()

    assert state(photographer, day) != before
