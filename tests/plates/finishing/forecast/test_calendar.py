"""Varnish sessions and packings, by hand. The nights of the clock change in Lisbon are those of the tz database."""

from datetime import UTC, date, datetime, time
from zoneinfo import ZoneInfo

import pytest

from plates.finishing.forecast import FinishingError, Session, Spread
from tests.plates.finishing.racks import MONDAY, days, hours

LISBON = ZoneInfo("Europe/Lisbon")


def test_an_open_day_has_one_session_and_one_packing():
    found = days(ahead=2)

    assert found.sessions == (Session(120, 240, 2), Session(120 + 1440, 240 + 1440, 2))
    assert (found.packings, found.dates) == ((600, 2040), (date(2026, 11, 30), date(2026, 12, 1)))


def test_closed_days_and_free_weekdays_have_neither():
    found = days(ahead=7, weekdays=(1, 2, 3, 4, 5), closed={date(2026, 12, 1)})

    assert [on.day for on in found.dates] == [30, 2, 3, 4]
    assert len(found.sessions) == 4


def test_what_is_over_today_is_left_out_and_a_session_under_way_is_not():
    under_way = days(now=MONDAY.replace(hour=10), ahead=1)
    over = days(now=MONDAY.replace(hour=17, minute=1), ahead=1)

    assert (under_way.sessions, under_way.packings) == ((Session(-60, 60, 2),), (420,))
    assert (over.sessions, over.packings) == ((), ())


def test_the_clock_of_the_studio_is_kept_over_the_night_it_goes_back():
    """On 25 October 2026 a day in Lisbon has 25 hours."""
    found = days(now=datetime(2026, 10, 24, 7, 0, tzinfo=UTC), ahead=2, zone=LISBON)

    assert found.packings[1] - found.packings[0] == 25 * 60


def test_a_part_of_a_minute_counts_as_a_whole_one():
    assert days().minute(MONDAY.replace(second=1)) == 1


@pytest.mark.parametrize(
    ("wrong", "sentence"),
    [
        pytest.param({"weekdays": ()}, "Choose at least one day of the week.", id="no day"),
        pytest.param({"weekdays": (0,)}, "Choose at least one day of the week.", id="no such day"),
        pytest.param(
            {"plates": 0},
            "A varnish session takes at least one plate, and no less than no time.",
            id="no plate",
        ),
        pytest.param(
            {"minutes": -1},
            "A varnish session takes at least one plate, and no less than no time.",
            id="less than no time",
        ),
    ],
)
def test_a_week_without_work_is_refused(wrong, sentence):
    with pytest.raises(FinishingError, match=f"^{sentence}$"):
        hours(**wrong)


def test_times_out_of_order_are_refused():
    with pytest.raises(FinishingError, match=r"^The shortest time cannot be longer than the usual one"):
        Spread(30, 20, 60)


def test_the_hour_of_varnish_is_the_one_asked_for():
    assert days(begins=time(10, 30), ahead=1).sessions[0].begins == 210
