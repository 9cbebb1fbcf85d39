"""What the rows of venues and sitting days may hold, by the database and in words."""

from decimal import Decimal

import pytest
from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction

from bookings.diary.daylight import Position
from bookings.diary.models import SittingDay, Venue
from tests import builders
from tests.builders.daylight import a_lit_day, a_lit_venue

pytestmark = pytest.mark.django_db

BOTH_OR_NEITHER = "Enter both a latitude from -90 to 90 degrees and a longitude from -180 to 180, or neither."


@pytest.mark.parametrize(
    ("latitude", "longitude"),
    [("91", "0"), ("-90.5", "0"), ("0", "180.5"), ("0", "-181"), ("38", None), (None, "9")],
)
def test_the_database_holds_no_position_that_is_none(latitude, longitude):
    with pytest.raises(IntegrityError, match="venue_position"), transaction.atomic():
        builders.a_venue(latitude=latitude, longitude=longitude)


@pytest.mark.parametrize(
    ("latitude", "longitude", "sentence"),
    [
        ("38.7", None, BOTH_OR_NEITHER),
        (None, "-9.1", BOTH_OR_NEITHER),
        ("95", "0", "Ensure this value is less than or equal to 90."),
        ("0", "-181", "Ensure this value is greater than or equal to -180."),
    ],
)
def test_what_is_no_position_is_refused_in_words(latitude, longitude, sentence):
    venue = Venue(
        name="Tent", address="North Quay", zone="Europe/Lisbon", latitude=latitude, longitude=longitude
    )

    with pytest.raises(ValidationError) as refusal:
        venue.full_clean()

    assert sentence in refusal.value.messages


@pytest.mark.parametrize("height", ["-6.1", "90.1"])
def test_the_database_holds_no_height_that_no_plate_is_made_by(height):
    day = builders.a_day()

    with pytest.raises(IntegrityError, match="sitting_day_sun_height"), transaction.atomic():
        SittingDay.objects.filter(pk=day.pk).update(sun_height=height)


def test_a_venue_knows_its_position_once_both_degrees_are_there():
    assert builders.a_venue().position is None
    assert a_lit_venue().position == Position(38.7, -9.1)


def test_a_day_by_daylight_asks_for_the_position_of_its_venue_first():
    day = builders.a_day()
    day.by_daylight = True

    with pytest.raises(ValidationError) as refusal:
        day.full_clean()

    assert refusal.value.messages == ["Enter the latitude and longitude of Gannet Lane under Set-up first."]


def test_a_position_that_a_day_by_daylight_needs_cannot_be_taken_away():
    venue = a_lit_day().venue
    venue.latitude = venue.longitude = None

    with pytest.raises(ValidationError) as refusal:
        venue.full_clean()

    assert refusal.value.messages == ["Days of this venue work by daylight, which needs its position."]


def test_a_position_that_no_day_needs_can_be_taken_away_and_corrected():
    venue = a_lit_venue()
    venue.latitude = venue.longitude = None
    venue.full_clean()

    corrected = a_lit_day(venue=a_lit_venue("Old crane")).venue
    corrected.latitude = Decimal("38.75")
    corrected.full_clean()
