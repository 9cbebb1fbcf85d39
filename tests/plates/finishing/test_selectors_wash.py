"""What lies in the wash and on the rack, and when it may be lifted.

Outside: the planning values of design s.3 (wash 60 to 120 minutes; common practice, no source), windows by hand.
"""

from datetime import UTC, datetime, time, timedelta

import pytest

from plates.bench.models import BenchJob, Plate, PlateSlot, SpoiltReason, Stage
from plates.finishing.selectors.wash import left_over, rack_plates
from plates.ledger.services import events as ledger
from plates.ledger.services import undo
from tests import builders

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, tzinfo=UTC)
HOUR = timedelta(hours=1)


@pytest.fixture
def day():
    return builders.a_day()


def slots_of(order):
    return list(PlateSlot.objects.filter(job=order.sitting.bench_job_id))


def racks(day, now=TEN):
    return rack_plates(day=day.bench_day, now=now)


def spoil(plate, now):
    ledger.spoil(plate_id=plate.pk, reason=SpoiltReason.FOGGED, note="", operator=None, now=now)


def test_a_promised_plate_has_its_planned_window(day):
    order = builders.a_paid_order(day)

    [found] = racks(day)

    into_wash = TEN + timedelta(minutes=order.sitting.bench_job.plan["plates"][0]["wash_in"])
    assert (found.plate, found.in_wash, found.washed_from) == (None, False, into_wash)
    assert (found.lift_from, found.lift_by) == (into_wash + HOUR, into_wash + 2 * HOUR)
    assert found.job_id == order.sitting.bench_job_id


def test_a_plate_in_the_wash_has_the_window_of_when_it_really_went_in(day):
    [slot] = slots_of(builders.a_paid_order(day))
    began = TEN + timedelta(minutes=50)
    plate = builders.made_plate(slot, Stage.WASHING, began)

    [found] = racks(day, began)

    assert (found.plate, found.in_wash, found.washed_from) == (plate, True, began)
    assert (found.lift_from, found.lift_by) == (began + HOUR, began + 2 * HOUR)


def test_what_follows_the_wash_is_told_once_it_has_happened(day):
    [slot] = slots_of(builders.a_paid_order(day))
    plate = builders.made_plate(slot, Stage.WASHING, TEN)
    later = TEN + HOUR
    ledger.record_stage(plate_id=plate.pk, stage=Stage.DRYING, operator=None, now=later)

    assert racks(day, later)[0].reached == {Stage.WASHING: TEN, Stage.DRYING: later}


def test_a_press_taken_back_did_not_happen(day):
    [slot] = slots_of(builders.a_paid_order(day))
    plate = builders.made_plate(slot, Stage.WASHING, TEN)
    undo.undo_press(plate_id=plate.pk, operator=None, now=TEN + timedelta(seconds=9))

    assert racks(day)[0].reached == {}
    assert not racks(day)[0].in_wash


def test_plates_stand_in_the_order_in_which_they_may_be_lifted(day):
    builders.a_paid_order(day, at=time(14))
    builders.a_paid_order(day, at=time(10), sizes=["quarter", "quarter"])

    lifts = [found.lift_from for found in racks(day)]

    assert len(lifts) == 3
    assert lifts == sorted(lifts)


def test_a_plate_that_takes_two_places_has_two_and_plates_at_once_have_different_ones(day):
    builders.a_paid_order(day, at=time(10), sizes=["whole"])
    builders.a_paid_order(day, at=time(10, 30), sizes=["quarter"])

    whole, quarter = racks(day)

    assert whole.lift_from < quarter.lift_from
    assert len(set(whole.places)) == 2
    assert not set(whole.places) & set(quarter.places)


def test_a_spoilt_plate_leaves_its_line_to_the_one_that_is_made_again(day):
    [slot] = slots_of(builders.a_paid_order(day))
    spoil(builders.made_plate(slot, Stage.EXPOSED, TEN), TEN + timedelta(minutes=20))
    again = BenchJob.objects.get(retake_of__slot=slot)

    [found] = racks(day, TEN + timedelta(minutes=20))

    assert (found.plate, found.job_id) == (None, slot.job_id)
    assert found.washed_from == TEN + timedelta(minutes=again.plan["plates"][0]["wash_in"])


def test_the_plate_made_again_and_again_is_the_one_that_is_shown(day):
    [slot] = slots_of(builders.a_paid_order(day))
    for minutes in (20, 40):
        at = TEN + timedelta(minutes=minutes)
        spoil(builders.made_plate(slot, Stage.EXPOSED, at), at)
    third = builders.made_plate(slot, Stage.WASHING, TEN + HOUR)

    [found] = racks(day, TEN + HOUR)

    assert found.plate == third


def test_a_wrong_press_leaves_the_line_as_it_was(day):
    [slot] = slots_of(builders.a_paid_order(day))
    wrong = ledger.pour(slot_id=slot.pk, operator=None, now=TEN)
    undo.undo_press(plate_id=wrong.pk, operator=None, now=TEN + timedelta(seconds=9))

    [found] = racks(day)

    assert found.plate is None


def test_plates_of_other_days_are_told_while_they_are_in_the_wash_or_on_the_rack(day):
    before = builders.a_day(on=builders.SATURDAY - timedelta(days=1))
    slots = slots_of(builders.a_paid_order(before, sizes=["sixth"] * 4))
    stages = (Stage.FIXED, Stage.WASHING, Stage.VARNISHED, Stage.READY)
    made = [builders.made_plate(*each, TEN) for each in zip(slots, stages, strict=True)]

    assert left_over(day=day.bench_day) == made[1:3]
    assert left_over(day=before.bench_day) == []


def test_a_long_day_is_asked_for_as_often_as_a_short_one(day, django_assert_num_queries):
    builders.made_plates(builders.a_paid_order(day), stage=Stage.WASHING, now=TEN)
    for hour in (11, 12, 13):
        order = builders.a_paid_order(day, at=time(hour), sizes=["quarter", "quarter"])
        builders.made_plates(order, stage=Stage.WASHING, now=TEN)
    spoil(Plate.objects.last(), TEN)

    with django_assert_num_queries(5):
        assert len(racks(day)) >= 6
