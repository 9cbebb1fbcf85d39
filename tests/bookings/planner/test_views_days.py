"""Opening a day, and looking at how full one is."""

import pytest
from django.urls import reverse

from bookings.diary.models import SittingDay
from tests import builders
from tests.reading.pages import Page

pytestmark = pytest.mark.django_db

PASSED = "That date has passed at the venue. Choose today or a later one."
FAR = "Days are opened at most 2 years ahead. Choose an earlier one."
NOT_THERE = "Select a valid choice. That choice is not one of the available choices."
WRONG = {
    "no date": ({"on": ""}, "Fill in: Date."),
    "no such date": ({"on": "2026-11-31"}, "Enter a valid date."),
    "a date with a NUL": ({"on": "2026-11-29\0"}, "Enter a valid date."),
    "no such hour": ({"opens": "25:00"}, "Enter a valid time."),
    "closing before opening": ({"closes": "09:00"}, "A day opens before it closes"),
    "racks emptied before closing": ({"racks_empty_by": "12:00"}, "A day opens before it closes"),
    "an hour that the clock skips": (
        {"on": "2027-03-28", "opens": "01:30"},
        "The clock goes forward on 28 March 2027: 01:30 does not exist there.",
    ),
    "no minutes": ({"start_every": "0"}, "Ensure this value is greater than or equal to 1."),
    "too many minutes": ({"start_every": "241"}, "Ensure this value is less than or equal to 240."),
    "a venue that is not there": ({"venue": "999"}, NOT_THERE),
    "a venue beyond every id": ({"venue": "9" * 30}, NOT_THERE),
    "a venue of letters": ({"venue": "x"}, NOT_THERE),
    "a venue with a NUL": ({"venue": "1\0"}, "Null characters are not allowed."),
    "the same bench and date again": (
        {"on": "2026-11-28"},
        "This bench is already at work on that date.",
    ),
}


@pytest.fixture
def hours(day):
    """What opens the next day: the bench and the venue are those of `day`."""
    return {
        "venue": day.venue_id,
        "bench": day.bench_day.bench_id,
        "on": "2026-11-29",
        "opens": "10:00",
        "closes": "18:00",
        "racks_empty_by": "19:15",
        "start_every": "15",
    }


@pytest.mark.parametrize(("changes", "sentence"), WRONG.values(), ids=WRONG)
def test_a_day_that_cannot_be_is_not_opened_and_what_was_typed_is_kept(
    photographer, hours, changes, sentence
):
    """The clock of Lisbon goes from 01:00 to 02:00 on 28 March 2027 (tz database, rule EU)."""
    response = photographer.post(reverse("studio:planner"), hours | changes)

    page = Page(response)
    assert response.status_code == 400
    assert [error[: len(sentence)] for error in page.errors] == [sentence]
    assert {name: page.fields[name] for name in ("on", "opens", "start_every")} == {
        name: (hours | changes)[name] for name in ("on", "opens", "start_every")
    }
    assert SittingDay.objects.count() == 1


@pytest.mark.parametrize(("on", "zone"), [("0001-01-01", "Asia/Tokyo"), ("9999-12-31", "America/New_York")])
def test_the_ends_of_the_calendar_are_refused(photographer, hours, on, zone):
    venue = builders.a_venue(name="Far away", zone=zone)
    late = {"opens": "08:30", "closes": "23:00", "racks_empty_by": "23:30"}

    response = photographer.post(reverse("studio:planner"), hours | late | {"venue": venue.pk, "on": on})

    assert response.status_code == 400
    assert Page(response).errors == [PASSED if on.startswith("0") else FAR]


@pytest.mark.parametrize(
    ("zone", "on", "errors"),
    [
        # It is 20 November 2026, nine o'clock at Greenwich; the tz database has Apia at UTC+13 and Honolulu at UTC-10.
        ("Europe/Lisbon", "2026-11-19", [PASSED]),
        ("Europe/Lisbon", "2026-11-20", []),
        ("Pacific/Apia", "2026-11-19", [PASSED]),
        ("Pacific/Honolulu", "2026-11-19", []),
        ("Europe/Lisbon", "2028-11-20", []),
        ("Europe/Lisbon", "2028-11-21", [FAR]),
        ("Europe/Lisbon", "2029-01-01", [FAR]),
    ],
)
def test_days_are_opened_from_today_at_the_venue_to_two_years_ahead(photographer, hours, zone, on, errors):
    venue = builders.a_venue(name="Far away", zone=zone)

    response = photographer.post(reverse("studio:planner"), hours | {"venue": venue.pk, "on": on})

    assert (response.status_code == 302) is (errors == [])
    assert errors == (Page(response).errors if errors else [])
    assert SittingDay.objects.filter(venue=venue).exists() is (errors == [])


def test_a_new_day_is_opened_on_the_clock_of_its_venue(photographer, hours):
    """Tokyo: nine hours ahead of UTC all year (tz database, Asia/Tokyo)."""
    venue = builders.a_venue(name="Far away", zone="Asia/Tokyo")

    response = photographer.post(reverse("studio:planner"), hours | {"venue": venue.pk})

    opened = SittingDay.objects.get(venue=venue)
    assert response.url == reverse("studio:plan_day", args=[opened.pk])
    assert opened.bench_day.opens_at.isoformat() == "2026-11-29T01:00:00+00:00"


@pytest.mark.parametrize("size", ["", "0", "-1", "x", "\0", "9" * 30, "9" * 5000, "²"])
def test_a_size_that_is_not_there_counts_in_the_first_one(photographer, day, size):
    response = photographer.get(reverse("studio:plan_day", args=[day.pk]), {"size": size})

    assert response.status_code == 200
    assert "Starts that a client sees for one sixth plate" in Page(response).text


def test_a_size_that_was_asked_for_is_counted(photographer, day):
    whole = builders.a_size("whole")

    response = photographer.get(reverse("studio:plan_day", args=[day.pk]), {"size": whole.pk})

    assert "Starts that a client sees for one whole plate" in Page(response).text
