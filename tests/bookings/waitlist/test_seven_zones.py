"""A hold and an offer last real minutes, also over the moment at which the clock is changed, in seven zones.

Outside: the instants of the changes and what the wall shows then, as the tz database has them (written by hand, from
memory; the first test holds them against `zoneinfo`). Brazil has changed no clock since 2019; Morocco puts it back for
the weeks of Ramadan.
"""

from datetime import UTC, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest

from bookings.outbox.models import NoticeKind
from bookings.waitlist import services as waiting
from bookings.waitlist.selectors import State, state_of, with_orders
from tests import builders
from tests.reading.letters import flowing, the_letter

pytestmark = pytest.mark.django_db

MINUTE, SECOND = timedelta(minutes=1), timedelta(seconds=1)
# Zone, the instant of the change in UTC, the wall a second before, the wall then, the offset from then on.
CHANGES = [
    ("Europe/Lisbon", "2026-03-29T01:00", "00:59:59", "02:00", "UTC+1"),
    ("Europe/Lisbon", "2026-10-25T01:00", "01:59:59", "01:00", "UTC+0"),
    ("Europe/Berlin", "2026-03-29T01:00", "01:59:59", "03:00", "UTC+2"),
    ("Europe/Berlin", "2026-10-25T01:00", "02:59:59", "02:00", "UTC+1"),
    ("America/New_York", "2026-03-08T07:00", "01:59:59", "03:00", "UTC-4"),
    ("America/New_York", "2026-11-01T06:00", "01:59:59", "01:00", "UTC-5"),
    ("America/Sao_Paulo", "2026-02-15T03:00", "23:59:59", "00:00", "UTC-3"),
    ("Australia/Lord_Howe", "2026-10-03T15:30", "01:59:59", "02:30", "UTC+11"),
    ("Australia/Lord_Howe", "2026-04-04T15:00", "01:59:59", "01:30", "UTC+10:30"),
    ("Pacific/Auckland", "2026-09-26T14:00", "01:59:59", "03:00", "UTC+13"),
    ("Pacific/Auckland", "2026-04-04T14:00", "02:59:59", "02:00", "UTC+12"),
    ("Africa/Casablanca", "2026-02-15T02:00", "02:59:59", "02:00", "UTC+0"),
    ("Africa/Casablanca", "2026-03-22T02:00", "01:59:59", "03:00", "UTC+1"),
]
NIGHTS = pytest.mark.parametrize(
    ("zone", "change", "before", "after", "offset"),
    [(zone, datetime.fromisoformat(change).replace(tzinfo=UTC), *rest) for zone, change, *rest in CHANGES],
    ids=[f"{zone} {change[:10]}" for zone, change, *_ in CHANGES],
)


def a_night(zone, change):
    """A day that is open from midnight to seven on the date of the change."""
    bench = builders.a_bench(operators=9, tank_places=9, wash_places=30, sitters_at_once=1)
    hours = {"opens": time(0), "closes": time(7), "racks_empty_by": time(9)}
    return builders.a_day(on=change.astimezone(ZoneInfo(zone)).date(), zone=zone, bench=bench, **hours)


@NIGHTS
def test_the_table_is_that_of_the_tz_database(zone, change, before, after, offset):
    walls = [(change + step).astimezone(ZoneInfo(zone)) for step in (-SECOND, timedelta())]

    assert [f"{walls[0]:%H:%M:%S}", f"{walls[1]:%H:%M}"] == [before, after]


@NIGHTS
def test_a_hold_lapses_after_real_minutes_and_its_letter_shows_the_wall(zone, change, before, after, offset):
    day = a_night(zone, change)
    builders.a_studio(deposit_hours=1)
    order = builders.a_placed_order(day, at=change + 90 * MINUTE, now=change - 30 * MINUTE)
    lapses, job = change + 30 * MINUTE, order.sitting.bench_job

    held = [job.counts(lapses - SECOND), job.counts(lapses)]

    assert (job.held_until, held) == (lapses, [True, False])
    wall = f"{datetime.fromisoformat(f'2026-01-01T{after}+00:00') + 30 * MINUTE:%H:%M}"
    letter = flowing(the_letter(order, NoticeKind.DEPOSIT_DUE))
    assert f"at {wall} ({zone}, {offset}) Reference:" in letter


# One forward, one back, one by half an hour: what an offer adds to a hold does not hang on the zone.
@pytest.mark.parametrize(
    ("zone", "change"), [NIGHTS.args[1][at][:2] for at in (0, 1, 8)], ids=["forward", "back", "half"]
)
def test_an_offer_from_the_waiting_list_stands_for_real_minutes(zone, change):
    day = a_night(zone, change)
    builders.a_studio(offer_minutes=60)
    place = builders.a_waiting(day, earliest=time(6), latest=time(6, 30))
    now = change - 30 * MINUTE

    waiting.offer_freed(now=now)

    offered = with_orders().get(pk=place.pk)
    states = [state_of(offered, now=now + step) for step in (60 * MINUTE - SECOND, 60 * MINUTE)]
    assert states == [State.OFFERED, State.LAPSED]
