"""The sun over a place, held against almanacs and against the geometry of the sphere.

Almanacs print the rising and setting of the upper edge as seen through the air, which is the centre at -50/60 degrees
without it (U.S. Naval Observatory, "Rise, Set, and Twilight Definitions").
"""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from bookings.diary.daylight import Position, sun_height, windows

RISE_AND_SET = -50 / 60
ONE_MINUTE = timedelta(minutes=1)

# U.S. Naval Observatory, "Rise and Set for the Sun for 2023", W112 31, N36 57, seven hours west of Greenwich: copied
# from the table as it is kept with the tests of the astronomy library skyfield.
FREDONIA = [
    ("2023-01-01", "07:43", "17:24"), ("2023-02-01", "07:33", "17:55"), ("2023-03-01", "07:01", "18:24"),
    ("2023-03-20", "06:34", "18:42"), ("2023-04-15", "05:56", "19:05"), ("2023-05-15", "05:22", "19:31"),
    ("2023-06-21", "05:11", "19:53"), ("2023-07-15", "05:22", "19:49"), ("2023-08-15", "05:47", "19:21"),
    ("2023-09-23", "06:19", "18:26"), ("2023-10-17", "06:39", "17:51"), ("2023-12-21", "07:39", "17:17"),
]  # fmt: skip
# U.S. Naval Observatory, "Sun and Moon Data for One Day" for Tromso (E19.0, N69.5), 2014, one hour east of Greenwich,
# as quoted on a page of questions and answers. The sun does not set between 18 May and 25 July; a dash: not that day.
TROMSO = [
    ("2014-04-01", "04:50", "18:49"), ("2014-04-30", "02:29", "20:58"), ("2014-05-17", "00:29", "23:06"),
    ("2014-05-18", "00:13", "-"), ("2014-06-21", "-", "-"), ("2014-07-25", "-", "23:20"),
]  # fmt: skip


def near(instant, clock, zone):
    """Whether an instant is within a minute of a time on a clock; almanacs round to the nearest minute."""
    hour, minute = map(int, clock.split(":"))
    local = instant.astimezone(zone)
    return abs(local - local.replace(hour=hour, minute=minute, second=0)) <= ONE_MINUTE


def test_the_height_is_that_of_the_solar_position_paper():
    """Reda and Andreas, Solar Energy 76 (2004), example of A.5, tolerance 0.05 degrees.

    Topocentric elevation without the air 39.872046 degrees, and with it 39.888378 (zenith 50.11162): the numbers as
    the library pvlib keeps them with its tests.
    """
    at = datetime.fromisoformat("2003-10-17T12:30:30-07:00")

    height = sun_height(Position(39.742476, -105.1786), at)

    assert height == pytest.approx(39.872046, abs=0.05)


@pytest.mark.parametrize(("on", "rises", "sets"), FREDONIA)
def test_rise_and_set_are_those_of_the_almanac(on, rises, sets):
    zone = ZoneInfo("Etc/GMT+7")

    (day,) = windows(Position(36 + 57 / 60, -(112 + 31 / 60)), RISE_AND_SET, date.fromisoformat(on), zone)

    assert near(day.begins_at, rises, zone)
    assert near(day.ends_at, sets, zone)


@pytest.mark.parametrize(("on", "rises", "sets"), TROMSO)
def test_rise_and_set_in_the_far_north_are_those_of_the_almanac(on, rises, sets):
    zone = ZoneInfo("Etc/GMT-1")

    (day,) = windows(Position(69.5, 19.0), RISE_AND_SET, date.fromisoformat(on), zone)

    assert near(day.begins_at, "00:00" if rises == "-" else rises, zone)
    assert near(day.ends_at, "23:59" if sets == "-" else sets, zone)


@pytest.mark.parametrize("latitude", [-60, -23.44, 0, 38.7, 51.5, 66])
@pytest.mark.parametrize(
    ("on", "declination"),
    # The tilt of the earth's axis is 23.44 degrees (from memory); the dates are those of 2026 (from memory).
    [("2026-03-20", 0.0), ("2026-06-21", 23.44), ("2026-09-23", 0.0), ("2026-12-21", -23.44)],
)
def test_the_noon_height_is_the_distance_from_the_zenith_taken_from_a_right_angle(latitude, on, declination):
    # 90 - |latitude - declination|; about the equinox the declination changes by 0.4 degrees a day.
    midnight = datetime.fromisoformat(f"{on}T00:00+00:00")
    heights = [sun_height(Position(latitude, 0), midnight + minute * ONE_MINUTE) for minute in range(1440)]

    allowed = 0.05 if declination else 0.25
    assert max(heights) == pytest.approx(90 - abs(latitude - declination), abs=allowed)


def test_the_midnight_sun_stands_at_the_height_that_the_sphere_gives():
    # At 70 degrees north, at the lowest point of the solstice: 70 + 23.44 - 90 degrees.
    lowest = min(
        sun_height(Position(70, 0), datetime(2026, 6, 21, tzinfo=UTC) + minute * ONE_MINUTE)
        for minute in range(1440)
    )

    assert lowest == pytest.approx(3.44, abs=0.05)
    (day,) = windows(Position(70, 0), 3.3, date(2026, 6, 21), ZoneInfo("UTC"))
    assert day.ends_at - day.begins_at == timedelta(hours=23, minutes=59)
