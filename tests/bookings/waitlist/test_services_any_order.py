"""Whatever happens in whatever order, the list does what a plain list in memory does.

The oracle is written anew here: places are the free starts of a day on which one sitter at a time can sit, the list is
a Python list, time is a number. It shares nothing with the service but the rules as the README tells them.
"""

import random
from datetime import UTC, datetime, time, timedelta
from uuid import uuid4

import pytest

from bookings.errors import WaitingRefused
from bookings.orders.services import placing
from bookings.orders.wishes import Wish
from bookings.waitlist import services as waiting
from bookings.waitlist.models import Waiting
from bookings.waitlist.services import Request
from plates.errors import BenchFull
from plates.schedule.services import jobs as bench
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

STARTS = [datetime(2026, 11, 28, hour, tzinfo=UTC) for hour in (10, 11)]
OFFERED_FOR = timedelta(hours=2)
HELD_FOR = timedelta(minutes=20)
DETAILS = placing.Details(name="Ottilie Marrow", email="ottilie@example.org", phone="", consents={})


class PlainList:
    """The rules in the fewest words: `taken` says until when a start is somebody's, `waiting` who stands in line."""

    def __init__(self):
        self.taken = dict.fromkeys(STARTS, (None, NOW - HELD_FOR))
        self.waiting, self.offers = [], {}

    def free(self, now):
        return [start for start, (_, until) in self.taken.items() if until <= now]

    def join(self, who, start, now):
        if start in self.free(now):
            return False
        self.waiting.append((who, start))
        return True

    def drain(self, now):
        for who, start in list(self.waiting):
            if start in self.free(now):
                self.taken[start] = (who, now + OFFERED_FOR)
                self.offers[who] = start
                self.waiting.remove((who, start))

    def leave(self, who):
        self.waiting = [each for each in self.waiting if each[0] != who]
        for start, (owner, _) in self.taken.items():
            if owner == who:
                self.taken[start] = (None, NOW - HELD_FOR)


class Play:
    """One invented day, played on the service and on the plain list at once."""

    def __init__(self, seed):
        self.chance = random.Random(seed)
        hands = builders.a_bench(operators=9, tank_places=9, wash_places=30, sitters_at_once=1)
        self.day = builders.a_day(bench=hands, closes=time(12), racks_empty_by=time(15), start_every=60)
        self.plain, self.now, self.places, self.holds = PlainList(), NOW, {}, {}
        for start in STARTS:
            self.hold(start)

    def step(self):
        self.now += timedelta(minutes=self.chance.choice([1, 1, 7, 21, 125]))
        act = self.chance.choice([self.hold, self.hold, *[self.join] * 4, self.leave, self.give_back])
        act()
        self.drain()

    def hold(self, start=None):
        start = start or self.chance.choice(STARTS)
        try:
            order = builders.a_held_order(self.day, at=start, now=self.now)
        except BenchFull:
            assert start not in self.plain.free(self.now)
            return
        assert start in self.plain.free(self.now)
        self.plain.taken[start] = (order.pk, self.now + HELD_FOR)
        self.holds[start] = order

    def give_back(self):
        start = self.chance.choice(STARTS)
        owner, until = self.plain.taken[start]
        if start in self.holds and owner == self.holds[start].pk and until > self.now:
            bench.release(job_id=self.holds[start].sitting.bench_job_id, now=self.now)
            self.plain.taken[start] = (None, NOW - HELD_FOR)

    def join(self):
        start, who = self.chance.choice(STARTS), f"{uuid4().hex[:8]}@example.org"
        asked = Request(name="Wren Achterberg", email=who, earliest=start, latest=start)
        wish = Wish(sizes=[builders.a_size()])
        try:
            place = waiting.join(key=uuid4(), day_id=self.day.pk, wish=wish, asked=asked, now=self.now)
        except WaitingRefused:
            assert not self.plain.join(who, start, self.now)
            return
        assert self.plain.join(who, start, self.now)
        self.places[who] = place.pk

    def leave(self):
        if self.places:
            who = self.chance.choice(sorted(self.places))
            waiting.leave(place_id=self.places.pop(who), now=self.now)
            self.plain.leave(who)

    def drain(self):
        waiting.offer_freed(now=self.now, seconds=60)
        self.plain.drain(self.now)

    def offers(self):
        rows = Waiting.objects.filter(order__isnull=False, pk__in=self.places.values()).select_related(
            "order__sitting__bench_job"
        )
        return {row.email: row.order.sitting.bench_job.starts_at for row in rows}


@pytest.mark.parametrize("seed", range(2))
def test_the_list_does_what_a_plain_list_does(seed):
    play = Play(seed)

    for _ in range(25):
        play.step()
        assert play.offers() == {who: play.plain.offers[who] for who in play.offers()}
        kept = {who for who in play.plain.offers if who in play.places}
        assert set(play.offers()) == kept

    assert play.plain.offers
