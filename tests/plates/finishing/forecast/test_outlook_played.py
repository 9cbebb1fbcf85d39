"""Promise dates against the same weeks played out event by event in simpy, with luck of its own (`random.triangular`).

There nobody reckons ahead: when a session begins, whoever keeps it looks for dry plates, takes those promised first,
and lays them aside to cure; at each packing time what has cured is packed.
"""

import random
from datetime import timedelta
from math import sqrt

import pytest
import simpy

from plates.finishing.forecast import Lying, Spread, Work
from plates.finishing.forecast.outlook import RUNS, look_ahead
from tests.plates.finishing.racks import MONDAY, days

TIMES = 800
BEGINS = -500
SUNDAY_OFF = (1, 2, 3, 4, 5, 6)
BUSY = {"weekdays": SUNDAY_OFF, "plates": 3, "closed": {MONDAY.date() + timedelta(days=2)}}
WORK = Work(Spread(30, 60, 300), Spread(720, 1440, 4320), 0.95)
# Two dozen plates of three days, promised in another order than they come onto the rack.
RACKED = [(7 * place) % 24 * 130 - 300 for place in range(24)]
ASKED = 23


class Life:
    """One life of the rack; afterwards `packed` holds the packing at which each plate was packed."""

    def __init__(self, racked, calendar, work, chance):
        self.world = simpy.Environment(initial_time=BEGINS)
        self.work, self.chance = work, chance
        self.dry, self.cured, self.packed = set(), set(), {}
        for plate, minute in enumerate(racked):
            self.world.process(self.drying(plate, minute))
        for session in calendar.sessions:
            self.world.process(self.varnishing(session))
        for place, minute in enumerate(calendar.packings):
            self.world.process(self.packing(place, minute))
        self.world.run()

    def until(self, minute):
        return self.world.timeout(minute - self.world.now)

    def takes(self, spread):
        return self.world.timeout(self.chance.triangular(spread.least, spread.most, spread.usual))

    def drying(self, plate, minute):
        yield self.until(minute)
        yield self.takes(self.work.drying)
        self.dry.add(plate)

    def varnishing(self, session):
        yield self.until(session.begins)
        for plate in sorted(self.dry)[: session.plates]:
            self.dry.discard(plate)
            self.world.process(self.curing(plate, session.ends))

    def curing(self, plate, ends):
        yield self.until(ends)
        yield self.takes(self.work.curing)
        self.cured.add(plate)

    def packing(self, place, minute):
        yield self.until(minute)
        self.packed.update(dict.fromkeys(self.cured, place))
        self.cured.clear()


@pytest.fixture(scope="module")
def lives():
    chance = random.Random(20261126)
    calendar = days(ahead=24, **BUSY)
    return calendar, [Life(RACKED, calendar, WORK, chance).packed for _ in range(TIMES)]


def outlook(calendar):
    return look_ahead(calendar, WORK, [Lying(key=key, racked=minute) for key, minute in enumerate(RACKED)])


def share_by(lives, plate, place):
    return sum(life[plate] <= place for life in lives) / len(lives)


@pytest.mark.parametrize("plate", [0, 11, ASKED], ids=["promised first", "in the middle", "promised last"])
def test_every_chance_is_that_of_the_weeks_played_within_the_error_of_sampling(lives, plate):
    calendar, played_out = lives
    forecast = outlook(calendar).of([plate])

    for place, on in enumerate(calendar.dates):
        told, seen = forecast.chance_by(on), share_by(played_out, plate, place)
        both = (told + seen) / 2
        # Four sigma of the difference of two samples: one false alarm in some five hundred looks at this file.
        error = 4 * sqrt(both * (1 - both) * (1 / TIMES + 1 / RUNS))
        assert abs(told - seen) <= error + 1e-9, (on, told, seen)


def test_the_promised_date_is_kept_as_often_as_it_says_and_the_one_before_would_not_be(lives):
    calendar, played_out = lives
    promised = outlook(calendar).of([ASKED]).sure(WORK.certainty)
    place = calendar.dates.index(promised)

    error = 3 * sqrt(0.95 * 0.05 * (1 / TIMES + 1 / RUNS))
    assert share_by(played_out, ASKED, place) >= WORK.certainty - error
    assert share_by(played_out, ASKED, place - 1) < WORK.certainty + error
