"""What a change of the bench would bring, at today's prices and at the starts that are really offered."""

from datetime import date, time, timedelta

import pytest

from bookings.diary.models import Venue
from bookings.planner.selectors.what_if import midday, prospects
from bookings.pricing.models import SizePrice
from plates.capacity.what_if import StillToSell
from plates.schedule.selectors.what_if import WorkedOut
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db


@pytest.fixture
def day():
    """Ten to eleven on a bench with one wash place, where one plate can be made and two with another."""
    bench = builders.a_bench(wash_places=1)
    return builders.a_day(bench=bench, closes=time(11), racks_empty_by=time(12), start_every=30)


def rows(found):
    return {row.change: (row.sittings, row.more, row.gain, row.income) for row in found.changed}


def test_a_change_that_sells_one_more_brings_one_price(day):
    found = prospects(day=day, size=builders.a_size(), now=NOW)

    assert (found.now.sittings, found.now.proven, found.price, found.currency) == (1, True, 8500, "EUR")
    assert rows(found) == {
        "assistant": (1, 0, "exactly", 0),
        "operators+1": (1, 0, "exactly", 0),
        "tank_places+1": (1, 0, "exactly", 0),
        "wash_places+1": (2, 1, "exactly", 8500),
    }
    assert found.most == 2


def test_prices_are_those_of_today_at_the_venue(day):
    size = builders.a_size()
    later = {"tax_class": builders.a_tax_class(), "size": size}
    SizePrice.objects.create(holds_from=date(2026, 11, 20), amount=9000, **later)
    SizePrice.objects.create(holds_from=date(2026, 11, 21), amount=9900, **later)

    assert prospects(day=day, size=size, now=NOW).price == 9000
    assert prospects(day=day, size=size, now=NOW + timedelta(days=1)).price == 9900


def test_a_size_without_a_price_has_no_income(day):
    size = builders.a_size()
    SizePrice.objects.all().delete()

    found = prospects(day=day, size=size, now=NOW)

    assert {row.income for row in found.changed} == {None}
    assert found.price is None


@pytest.mark.parametrize(
    ("base", "changed", "gain"),
    [
        ((5, 5), (7, 7), "exactly"),
        ((5, 5), (7, 9), "at_least"),
        ((5, 6), (7, 7), "found"),
        ((5, 6), (7, 9), "found"),
    ],
)
def test_a_gain_is_only_called_what_it_is_proven_to_be(day, monkeypatch, base, changed, gain):
    answer = WorkedOut((StillToSell("none", *base), StillToSell("assistant", *changed)), ("operators+1",))
    monkeypatch.setattr("bookings.planner.selectors.what_if.still_to_sell", lambda **asked: answer)

    found = prospects(day=day, size=builders.a_size(), now=NOW)

    assert rows(found) == {"assistant": (7, 2, gain, 17000)}
    assert found.open_changes == ("operators+1",)


@pytest.mark.parametrize(("minutes", "sittings"), [(-1, 1), (0, 1), (29, 1), (30, 0)])
def test_only_starts_still_to_come_are_counted(day, minutes, sittings):
    # By hand: ten and half past ten are the starts, and the wash holds one plate of them.
    now = day.bench_day.opens_at + timedelta(minutes=minutes)

    assert prospects(day=day, size=builders.a_size(), now=now).now.sittings == sittings


def test_a_day_by_daylight_counts_its_light_only(day):
    Venue.objects.update(latitude=38.7, longitude=-9.1)
    day.venue.refresh_from_db()
    day.by_daylight, day.sun_height = True, 60  # in Lisbon in November the sun never stands so high

    assert prospects(day=day, size=builders.a_size(), now=NOW).now.sittings == 0


def test_the_assistant_comes_in_the_middle_of_the_day_on_its_grid():
    # Ten to eighteen: fourteen o'clock. Ten to 17:30 in steps of an hour: the middle is 13:45, thirteen on the grid.
    whole = builders.a_day()
    short = builders.a_day(
        on=date(2026, 11, 29), closes=time(17, 30), racks_empty_by=time(19), start_every=60
    )

    assert [f"{each.local(midday(each)):%H:%M}" for each in (whole, short)] == ["14:00", "13:00"]
