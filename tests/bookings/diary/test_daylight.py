"""The windows of a date in which the sun stands high enough, and what is no place, height or window."""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookings.diary.daylight import Position, Window, sun_height, windows

ONE_MINUTE = timedelta(minutes=1)
SALTMARROW = Position(38.7, -9.1)  # near Lisbon; the town is invented
LISBON = ZoneInfo("Europe/Lisbon")


@pytest.mark.parametrize(
    ("position", "height", "on"),
    [
        (Position(69.5, 19.0), 0, date(2026, 12, 21)),  # polar night
        (SALTMARROW, 28.5, date(2026, 12, 21)),  # 90 - 38.7 - 23.44 = 27.86 at noon
        (SALTMARROW, 90, date(2026, 6, 21)),  # the sun is overhead between the tropics only
    ],
)
def test_a_height_that_is_not_reached_leaves_no_window(position, height, on):
    assert windows(position, height, on, LISBON) == ()


def test_a_sun_that_sets_after_midnight_leaves_two_windows_in_one_date():
    """Reykjavik keeps the clock of Greenwich, an hour and a half before its sun; at midsummer it sets after midnight.

    About 00:03 and 02:55 (from memory, tolerance five minutes).
    """
    zone = ZoneInfo("Atlantic/Reykjavik")

    evening, day = windows(Position(64.15, -21.94), -50 / 60, date(2023, 6, 21), zone)

    assert evening.begins_at == datetime(2023, 6, 21, tzinfo=UTC)
    assert abs(evening.ends_at - datetime(2023, 6, 21, 0, 3, tzinfo=UTC)) <= 5 * ONE_MINUTE
    assert abs(day.begins_at - datetime(2023, 6, 21, 2, 55, tzinfo=UTC)) <= 5 * ONE_MINUTE
    assert day.ends_at == datetime(2023, 6, 21, 23, 59, tzinfo=UTC)


@pytest.mark.parametrize(
    ("on", "latitude", "hours"),
    # Near a pole, in its half of the year, it is light from midnight to midnight.
    [(date(2026, 3, 29), 89, 23), (date(2026, 6, 1), 89, 24), (date(2026, 10, 25), -89, 25)],
)
def test_a_date_is_as_long_as_its_clock_makes_it(on, latitude, hours):
    """The clock of Lisbon changes on the last Sundays of March and October (tz database, rule EU)."""
    (day,) = windows(Position(latitude, 0), -1, on, LISBON)

    assert day.ends_at - day.begins_at + ONE_MINUTE == timedelta(hours=hours)


def test_a_zone_that_skips_midnight_begins_its_date_when_the_clock_has_gone_forward():
    """Beirut: 00:00 became 01:00 on 27 March 2022 (tz database, rule Lebanon; 00:00 there is 22:00 in UTC)."""
    (day,) = windows(Position(89, 0), -1, date(2022, 3, 27), ZoneInfo("Asia/Beirut"))

    assert day.begins_at == datetime(2022, 3, 26, 22, tzinfo=UTC)
    assert day.ends_at == datetime(2022, 3, 27, 20, 59, tzinfo=UTC)


@given(
    latitude=st.floats(-89, 89),
    longitude=st.floats(-180, 180),
    height=st.floats(-6, 60),
    on=st.dates(date(2020, 1, 1), date(2035, 12, 31)),
    looked_at=st.lists(st.integers(0, 1439), min_size=1, max_size=40),
)
def test_inside_the_windows_it_is_light_and_outside_it_is_not(latitude, longitude, height, on, looked_at):
    place = Position(latitude, longitude)
    found = windows(place, height, on, ZoneInfo("UTC"))

    for minute in looked_at:
        at = datetime(on.year, on.month, on.day, tzinfo=UTC) + minute * ONE_MINUTE
        inside = any(window.holds(at, at) for window in found)
        # Ten minutes about the highest and lowest point are not looked at one by one: 0.05 degrees at most.
        assert inside is (sun_height(place, at) >= height) or abs(sun_height(place, at) - height) < 0.05


@given(height=st.floats(-6, 60), more=st.floats(0, 10), on=st.dates(date(2024, 1, 1), date(2030, 1, 1)))
def test_a_greater_height_is_never_kept_for_longer(height, more, on):
    def minutes(at_least):
        found = windows(SALTMARROW, at_least, on, LISBON)
        return sum(((window.ends_at - window.begins_at) // ONE_MINUTE for window in found), start=0)

    assert minutes(height + more) <= minutes(height)


def test_a_window_holds_what_lies_in_it_from_first_to_last_minute():
    begins, ends = datetime(2026, 6, 1, 9, tzinfo=UTC), datetime(2026, 6, 1, 17, tzinfo=UTC)
    window = Window(begins, ends)

    assert window.holds(begins, ends)
    assert not window.holds(begins - ONE_MINUTE, ends)
    assert not window.holds(begins, ends + ONE_MINUTE)


@pytest.mark.parametrize(
    ("latitude", "longitude", "sentence"),
    [
        (90.1, 0, "A latitude lies between"),
        (-91, 0, "A latitude lies between"),
        (float("nan"), 0, "A latitude lies between"),
        (0, 180.5, "A longitude lies between"),
        (0, float("nan"), "A longitude lies between"),
    ],
)
def test_what_is_no_place_is_refused(latitude, longitude, sentence):
    with pytest.raises(ValueError, match=sentence):
        Position(latitude, longitude)


@pytest.mark.parametrize("height", [-6.1, 90.1, float("nan")])
def test_a_height_out_of_range_is_refused(height):
    with pytest.raises(ValueError, match="between -6 and 90 degrees"):
        windows(SALTMARROW, height, date(2026, 6, 1), LISBON)


def test_a_window_that_ends_before_it_begins_is_refused():
    with pytest.raises(ValueError, match="does not end before it begins"):
        Window(datetime(2026, 6, 1, 9, tzinfo=UTC), datetime(2026, 6, 1, 8, tzinfo=UTC))


def test_an_instant_without_an_offset_is_refused():
    with pytest.raises(ValueError, match="with its offset"):
        sun_height(SALTMARROW, datetime(2026, 6, 1, 9))  # noqa: DTZ001 - the naive one is what is tested
