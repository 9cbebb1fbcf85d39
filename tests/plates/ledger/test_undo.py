"""Taking a press back within half a minute. What was pressed stays in the ledger (the owner's rule: append-only)."""

from datetime import UTC, datetime, timedelta
from uuid import uuid4

import pytest

from plates.bench.models import BenchJob, Plate, PlateEvent, PlateSlot
from plates.errors import SlotTaken, TooLate
from plates.ledger.services import events as ledger
from plates.ledger.services.undo import undo_press
from tests import builders

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
SECOND = timedelta(seconds=1)
MINUTE = timedelta(minutes=1)


@pytest.fixture
def slot():
    order = builders.a_paid_order(builders.a_day())
    return PlateSlot.objects.get(job=order.sitting.bench_job_id)


def poured(slot, *, at=TEN, **how):
    return ledger.pour(slot_id=slot.pk, operator=None, now=at, **how)


def pressed(plate, stage, *, at, **how):
    return ledger.record_stage(plate_id=plate.pk, stage=stage, operator=None, now=at, **how)


def spoilt(plate, *, at):
    return ledger.spoil(plate_id=plate.pk, reason="fogged", note="", operator=None, now=at)


def taken_back(plate, *, at, **how):
    return undo_press(plate_id=plate.pk, operator=None, now=at, **how)


def state(plate):
    plate.refresh_from_db()
    return plate.stage, plate.stage_at


def test_a_press_taken_back_leaves_the_plate_where_and_since_when_it_was(slot):
    plate = poured(slot)
    pressed(plate, "sensitised", at=TEN + 5 * MINUTE)

    taken_back(plate, at=TEN + 5 * MINUTE + 30 * SECOND)

    assert state(plate) == ("poured", TEN)
    assert [(event.stage, event.undoes_id is not None) for event in plate.events.all()] == [
        ("poured", False),
        ("sensitised", False),
        ("poured", True),
    ]


def test_after_half_a_minute_it_is_too_late(slot):
    plate = poured(slot)
    pressed(plate, "sensitised", at=TEN + 5 * MINUTE)

    with pytest.raises(TooLate, match=r"^A press can be taken back for 30 seconds; that time is over\.$"):
        taken_back(plate, at=TEN + 5 * MINUTE + 31 * SECOND)

    assert state(plate)[0] == "sensitised"


def test_the_stage_can_be_reached_again_as_often_as_it_was_taken_back(slot):
    plate = poured(slot)
    for turn in range(3):
        at = TEN + turn * MINUTE
        pressed(plate, "sensitised", at=at)
        taken_back(plate, at=at + SECOND)

    pressed(plate, "sensitised", at=TEN + 5 * MINUTE)

    assert state(plate) == ("sensitised", TEN + 5 * MINUTE)
    assert list(plate.events.filter(stage="sensitised").values_list("turn", flat=True)) == [0, 1, 2, 3]


def test_two_presses_are_taken_back_one_after_the_other(slot):
    plate = poured(slot)
    pressed(plate, "sensitised", at=TEN + 10 * SECOND)
    pressed(plate, "exposed", at=TEN + 20 * SECOND)

    taken_back(plate, at=TEN + 22 * SECOND)
    taken_back(plate, at=TEN + 23 * SECOND)

    assert state(plate) == ("poured", TEN)


def test_a_pour_taken_back_is_a_plate_that_never_was_and_its_sitting_has_not_begun(slot):
    plate = poured(slot)

    taken_back(plate, at=TEN + SECOND)

    plate.refresh_from_db()
    assert (plate.stage, plate.spoilt_reason) == ("spoilt", "mistake")
    assert BenchJob.objects.get(pk=slot.job_id).begun_at is None
    assert poured(slot, at=TEN + MINUTE).number == plate.number + 1


def test_a_plate_given_up_by_mistake_is_taken_back_with_the_room_for_its_retake(slot):
    plate = poured(slot)
    spoilt(plate, at=TEN + MINUTE)
    assert BenchJob.objects.filter(retake_of=plate).exists()

    taken_back(plate, at=TEN + MINUTE + SECOND)

    plate.refresh_from_db()
    assert (plate.stage, plate.spoilt_reason) == ("poured", "")
    assert not BenchJob.objects.filter(retake_of=plate).exists()
    assert spoilt(plate, at=TEN + 2 * MINUTE).retake


def test_a_plate_that_is_already_made_again_stays_given_up(slot):
    plate = poured(slot)
    spoilt(plate, at=TEN + MINUTE)
    poured(slot, at=TEN + MINUTE + SECOND)

    with pytest.raises(SlotTaken, match="already being made again"):
        taken_back(plate, at=TEN + MINUTE + 2 * SECOND)


def test_a_pour_of_a_retake_taken_back_leaves_the_sitting_begun_and_the_retake_not(slot):
    first = poured(slot)
    spoilt(first, at=TEN + MINUTE)
    again = poured(slot, at=TEN + 2 * MINUTE)

    taken_back(again, at=TEN + 2 * MINUTE + SECOND)

    assert BenchJob.objects.get(pk=slot.job_id).begun_at == TEN
    assert BenchJob.objects.get(retake_of=first).begun_at is None


@pytest.mark.parametrize("act", ["pour", "stage", "spoil", "take back"])
def test_a_press_sent_again_under_its_key_is_the_same_press(slot, act):
    key = uuid4()
    if act == "pour":
        plates = [poured(slot, press=key) for _ in range(3)]
        assert len({plate.pk for plate in plates}) == 1
        return
    plate = poured(slot)
    acts = {
        "stage": lambda: pressed(plate, "sensitised", at=TEN + SECOND, press=key),
        "spoil": lambda: ledger.spoil(
            plate_id=plate.pk, reason="fogged", note="", operator=None, now=TEN + SECOND, press=key
        ),
        "take back": lambda: taken_back(plate, at=TEN + SECOND, press=key),
    }
    if act == "take back":
        pressed(plate, "sensitised", at=TEN)

    for _ in range(3):
        acts[act]()

    assert PlateEvent.objects.filter(press=key).count() == 1


def test_a_press_that_was_taken_back_is_not_pressed_anew_when_it_is_sent_again(slot):
    key = uuid4()
    plate = poured(slot)
    pressed(plate, "sensitised", at=TEN + SECOND, press=key)
    taken_back(plate, at=TEN + 2 * SECOND)

    pressed(plate, "sensitised", at=TEN + SECOND, press=key)

    assert state(plate)[0] == "poured"
    assert Plate.objects.count() == 1
