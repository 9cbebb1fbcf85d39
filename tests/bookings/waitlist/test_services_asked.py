"""Asking for a place on the waiting list of a day: who stands on it once, and who not at all."""

from uuid import uuid4

import pytest

from bookings.diary.models import SittingDay
from bookings.errors import NotForSale, WaitingRefused
from bookings.outbox.models import Notice
from bookings.waitlist import services as waiting
from bookings.waitlist.models import Waiting
from tests.bookings.waitlist.worlds import (
    MINUTE,
    NOON,
    TEN,
    TWO_HOURS,
    a_day_of_two_places,
    again,
    both_sold,
    join,
)
from tests.builders import NOW

pytestmark = pytest.mark.django_db


@pytest.fixture
def day():
    return a_day_of_two_places()


@pytest.fixture
def full(day):
    return both_sold(day)


def test_one_address_is_on_the_list_of_a_day_once_however_it_is_typed(day, full):
    first = join(day)

    second = join(day, email="Ottilie@Example.org", latest=TEN)

    assert second.pk == first.pk
    assert (Waiting.objects.count(), Notice.objects.filter(kind="waiting").count()) == (1, 1)
    assert again(first).latest == NOON


def test_the_same_form_sent_twice_is_one_place(day, full):
    key = uuid4()

    assert join(day, key=key).pk == join(day, key=key).pk


def test_nobody_waits_for_what_is_free(day):
    with pytest.raises(
        WaitingRefused, match=r"^10:00 is free on that day\. Go back to the times and press it\.$"
    ):
        join(day)


@pytest.mark.parametrize(
    ("earliest", "latest"),
    [(NOON + TWO_HOURS, NOON + 2 * TWO_HOURS), (TEN - TWO_HOURS, TEN - MINUTE)],
    ids=["after closing", "before opening"],
)
def test_hours_outside_the_day_are_refused(day, full, earliest, latest):
    with pytest.raises(
        WaitingRefused, match=r"^Choose hours that are still to come, between 10:00 and 12:00\.$"
    ):
        join(day, earliest=earliest, latest=latest)


def test_a_day_that_is_not_open_has_no_list(day, full):
    SittingDay.objects.update(published=False)

    with pytest.raises(NotForSale, match=r"^This day is not open for booking\."):
        join(day)


def test_addresses_cannot_be_typed_in_by_the_dozen(day, full):
    for number in range(waiting.MOST_A_MINUTE):
        join(day, email=f"{number}@example.org")

    with pytest.raises(WaitingRefused, match=r"^Many people are asking just now\."):
        join(day, email="one.more@example.org")

    assert join(day, email="one.more@example.org", now=NOW + MINUTE)
