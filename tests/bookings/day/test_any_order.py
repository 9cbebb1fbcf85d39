"""Whatever is pressed at the bench in whatever order: the ledger tells one story, and what is promised can be made.

Hypothesis chooses presses, slips, marks, sittings sold meanwhile, people in line and how time goes by. The ledger takes
down what happened, also what no plan would do; so the places of tank and wash are asked for where they are planned: by
the verifier of the stored plans, and by the judge of a late day for all that is expected from what is really there.
"""

from datetime import timedelta
from functools import partial

import pytest
from hypothesis import Phase, settings
from hypothesis.stateful import invariant, rule, run_state_machine_as_test

from bookings.day.selectors.next_up import next_up
from bookings.day.selectors.queue import day_queue
from bookings.day.services import lateness
from bookings.handover.services import handing_over as handover
from bookings.orders.models import Order
from bookings.orders.selectors.account import account
from bookings.payments.services import ledger as payments
from plates import capacity
from plates.bench.models import BenchJob, Plate, PlateEvent, PlateNumber, SpoiltReason, Stage
from plates.bench.selectors import events_that_hold
from plates.capacity.late.day import late_day
from plates.capacity.late.verify import faults
from plates.finishing.selectors.wash import rack_plates
from plates.ledger.services import events as ledger
from plates.schedule.selectors.late import day_work
from plates.schedule.selectors.openings import promised_jobs
from plates.tent.selectors.plates import tent_plates
from tests import builders
from tests.bookings.day.presses import Presses, a_short_day

WAY = [stage for stage in Stage if stage != Stage.SPOILT]


class Bench(Presses):
    @rule()
    def look(self):
        """Every screen of the day can be drawn, and what is expected passes the judge."""
        day = self.day.bench_day
        payments.confirm_covered(now=self.now)
        lateness.catch_up(now=self.now)
        next_up(day=self.day, rows=day_queue(day=self.day, now=self.now), now=self.now)
        rack_plates(day=day, now=self.now)
        tent_plates(day=day, now=self.now)
        if self.now >= day.racks_empty_by:
            return
        works, now = [each.work for each in day_work(day=day, now=self.now)], day.minute(self.now)
        bench, hours = day.bench.as_capacity(), day.as_capacity()
        assert faults(bench, hours, works, late_day(bench, hours, works, now), now) == ()

    @invariant()
    def what_is_promised_can_be_made(self):
        day = self.day.bench_day
        booked = [job.as_booked() for job in promised_jobs(day=day, now=self.now)]
        assert capacity.problems(day.bench.as_capacity(), day.as_capacity(), booked) == ()

    @invariant()
    def every_plate_goes_its_way_in_order_and_is_where_its_newest_press_brought_it(self):
        for plate in Plate.objects.prefetch_related(events_that_hold()):
            told = [(each.stage, each.at) for each in plate.events.all()]
            stages = [stage for stage, _ in told if stage != Stage.SPOILT]
            assert stages == WAY[: len(stages)]
            assert Stage.SPOILT not in [stage for stage, _ in told[:-1]]
            assert told == sorted(told, key=lambda each: each[1])
            assert (plate.stage, plate.stage_at) == told[-1]

    @invariant()
    def a_place_in_an_order_has_one_plate_or_one_plan_to_make_it_again(self):
        live = list(Plate.objects.exclude(stage=Stage.SPOILT).values_list("slot", flat=True))
        again = BenchJob.objects.filter(retake_of__isnull=False, begun_at=None)
        slots = live + list(again.values_list("retake_of__slot", flat=True))
        assert len(slots) == len(set(slots))

    @invariant()
    def plates_are_numbered_without_gaps(self):
        numbers = list(Plate.objects.order_by("number").values_list("number", flat=True))
        assert numbers == list(range(1, len(numbers) + 1))
        assert numbers[-1:] == list(PlateNumber.objects.values_list("last", flat=True))

    @invariant()
    def what_was_poured_for_has_begun_and_what_was_handed_over_is_paid(self):
        real = Plate.objects.exclude(spoilt_reason=SpoiltReason.MISTAKE)
        assert not real.filter(slot__job__begun_at=None).exists()
        handed = Order.objects.filter(lines__slot__plates__stage=Stage.HANDED_OVER)
        assert all(account(order).settled for order in handed.distinct())

    @invariant()
    def every_refusal_is_a_sentence(self):
        assert all(refusal.endswith(".") for refusal in self.refusals)


def play(examples, **how):
    days = [a_short_day(1, 4, builders.SATURDAY), a_short_day(2, 3, builders.SATURDAY + timedelta(days=1))]
    limits = {"max_examples": examples, "stateful_step_count": 25, "derandomize": True}
    run_state_machine_as_test(partial(Bench, days), settings=settings(**limits, **how))


@pytest.mark.django_db
def test_whatever_is_pressed_the_ledger_tells_one_story_and_the_day_can_be_made():
    play(5)


def any_stage_follows(monkeypatch):
    def record_stage(*, plate_id, stage, operator, now, press=None):
        event = PlateEvent(stage=stage, at=now, operator=operator, press=press)
        return ledger.append(plate=ledger.locked(plate_id=plate_id), event=event)

    monkeypatch.setattr(ledger, "record_stage", record_stage)


def nothing_is_owed(monkeypatch):
    monkeypatch.setattr(handover, "refuse_while_owed", lambda *, order: None)


@pytest.mark.django_db
@pytest.mark.parametrize("mutated", [any_stage_follows, nothing_is_owed], ids=["stage order", "money first"])
def test_a_service_that_forgets_one_of_its_rules_is_found_out(mutated, monkeypatch):
    mutated(monkeypatch)

    with pytest.raises(AssertionError):
        play(40, phases=[Phase.generate], report_multiple_bugs=False)
