"""Whatever happens in a line in whatever order: the day can be made, and nobody holds two places or none.

Hypothesis chooses who joins, leaves, is called, comes, is poured for, or does not come, and how time goes by, on a
day that also has sittings promised on the clock and little room in the wash.
"""

from datetime import UTC, datetime, time, timedelta
from uuid import uuid4

import pytest
from django.db import transaction
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    Bundle,
    RuleBasedStateMachine,
    initialize,
    invariant,
    multiple,
    rule,
    run_state_machine_as_test,
)

from bookings.errors import BookingsError
from bookings.orders.models import Sitting
from bookings.orders.services.placing import Details
from bookings.walkups.models import LinePlace
from bookings.walkups.services import line
from bookings.walkups.services.orders import come
from plates import capacity
from plates.bench.models import BenchJob, PlateSlot
from plates.errors import PlatesError
from plates.ledger.services import events as ledger
from plates.schedule.selectors.openings import promised_jobs
from tests import builders

OPENS = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
DETAILS = Details(name="Ines Madrugada", email="ines@example.org", phone="", consents={})


class Stall(RuleBasedStateMachine):
    places = Bundle("places")

    @initialize(target=places, hands=st.sampled_from([1, 2]), wash=st.sampled_from([3, 4]))
    def open(self, hands, wash):
        self.undone = transaction.atomic()
        self.undone.__enter__()
        self.now = OPENS
        self.refusals = []
        self.sizes = {name: builders.a_size(name) for name in ("quarter", "whole")}
        bench = builders.a_bench(operators=hands, tank_places=hands, wash_places=wash, sitters_at_once=hands)
        self.day = builders.a_day(bench=bench, closes=time(13), racks_empty_by=time(14, 15))
        line.open_or_close(day_id=self.day.pk, keeps=True)
        for at in (time(10, 45), time(11, 30)):
            builders.a_paid_order(self.day, at=at)
        self.promises = self.on_the_clock()
        return multiple(*(self.join("quarter") for _ in range(2)))

    def teardown(self):
        if hasattr(self, "undone"):
            transaction.set_rollback(True)
            self.undone.__exit__(None, None, None)

    def attempt(self, act, **how):
        """Do it now; nothing may go wrong but what is refused in words."""
        try:
            return act(now=self.now, **how)
        except (PlatesError, BookingsError) as refusal:
            self.refusals.append(str(refusal))
            return None

    @rule(target=places, size=st.sampled_from(["quarter", "quarter", "whole"]))
    def join(self, size):
        how = {"day_id": self.day.pk, "key": uuid4(), "name": "Ines", "size": self.sizes[size]}
        place = self.attempt(line.join, at_desk=True, **how)
        return place.pk if place else multiple()

    @rule(place=places)
    def leave(self, place):
        self.attempt(line.leave, place_id=place)

    @rule(place=places)
    def call(self, place):
        self.attempt(line.call, place_id=place)

    @rule(place=places)
    def come_and_pour(self, place):
        self.attempt(line.call, place_id=place)
        if self.attempt(come, place_id=place, details=DETAILS):
            slot = PlateSlot.objects.get(job__in=LinePlace.objects.filter(pk=place).values("bench_job"))
            self.attempt(ledger.pour, slot_id=slot.pk, operator=None)

    @rule(place=places)
    def strike(self, place):
        self.attempt(line.strike, place_id=place)

    @rule(place=places)
    def let_in_again(self, place):
        self.attempt(line.undo_strike, place_id=place)

    @rule(minutes=st.sampled_from([1, 4, 15, 40]))
    def wait(self, minutes):
        self.now += timedelta(minutes=minutes)

    def on_the_clock(self):
        walked_up = LinePlace.objects.values("bench_job")
        sittings = Sitting.objects.exclude(bench_job__in=walked_up).select_related("bench_job").order_by("pk")
        return [(sitting.bench_job.starts_at, sitting.bench_job.plan) for sitting in sittings]

    @invariant()
    def what_is_promised_can_be_made(self):
        day = self.day.bench_day
        booked = [job.as_booked() for job in promised_jobs(day=day, now=self.now)]
        assert capacity.problems(day.bench.as_capacity(), day.as_capacity(), booked) == ()

    @invariant()
    def promises_on_the_clock_are_never_moved(self):
        assert self.on_the_clock() == self.promises

    @invariant()
    def everybody_in_line_has_one_job_and_nobody_else_has(self):
        standing = LinePlace.objects.filter(left_at=None, struck_at=None)
        jobs = set(standing.values_list("bench_job_id", flat=True))
        assert len(jobs) == standing.count()
        kept = {job.pk for job in promised_jobs(day=self.day.bench_day, now=self.now)}
        assert jobs <= kept
        assert len(kept) == len(jobs) + len(self.promises)

    @invariant()
    def those_who_wait_are_planned_in_the_order_of_their_numbers(self):
        waiting = LinePlace.objects.filter(called_at=None, left_at=None, struck_at=None)
        jobs = BenchJob.objects.in_bulk(waiting.values_list("bench_job_id", flat=True))
        starts = [jobs[place.bench_job_id].starts_at for place in waiting.order_by("number")]
        assert starts == sorted(starts)


@pytest.mark.django_db
def test_whatever_happens_in_a_line_the_day_can_be_made():
    run_state_machine_as_test(Stall, settings=settings(max_examples=6, stateful_step_count=20))
