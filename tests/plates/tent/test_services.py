"""Presses that were made some time ago, in the dark tent without network (issue 4: each replayed exactly once)."""

from datetime import UTC, datetime, timedelta
from uuid import uuid4

import pytest

from plates.bench.models import Plate, PlateEvent, PlateSlot
from plates.errors import PressRefused, SlotTaken, StageOutOfOrder, TooLate
from plates.ledger.services import events as ledger
from plates.tent.services import TentPress, record_press
from tests import builders

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
SECOND = timedelta(seconds=1)
MINUTE = timedelta(minutes=1)


@pytest.fixture
def slot():
    order = builders.a_paid_order(builders.a_day())
    return PlateSlot.objects.select_related("job").get(job=order.sitting.bench_job_id)


def a_press(slot, kind="pour", *, at=TEN, **facts):
    blank = {"plate": None, "pour": None, "stage": "", "reason": ""}
    return TentPress(**({"press": uuid4(), "kind": kind, "slot": slot.pk, "at": at} | blank | facts))


def taken(slot, asked, *, now=TEN + 30 * MINUTE, day_id=None):
    record_press(day_id=day_id or slot.job.day_id, asked=asked, operator=None, now=now)


def events():
    return list(PlateEvent.objects.order_by("id").values_list("stage", "at"))


def test_a_pour_is_entered_under_the_time_it_was_made(slot):
    taken(slot, a_press(slot))

    assert events() == [("poured", TEN)]


def test_a_whole_plate_made_without_network_is_entered_by_the_key_of_its_pour(slot):
    pour = a_press(slot)
    later = [
        a_press(slot, "stage", stage=stage, at=TEN + (place + 1) * MINUTE, pour=pour.press)
        for place, stage in enumerate(("sensitised", "exposed", "developed", "fixed", "washing"))
    ]

    for asked in (pour, *later):
        taken(slot, asked)

    assert [stage for stage, _ in events()] == [
        "poured", "sensitised", "exposed", "developed", "fixed", "washing",
    ]  # fmt: skip
    assert events()[-1] == ("washing", TEN + 5 * MINUTE)


def test_each_press_sent_twice_is_entered_once(slot):
    pour = a_press(slot)
    on = a_press(slot, "stage", stage="sensitised", pour=pour.press, at=TEN + MINUTE)
    back = a_press(slot, "undo", pour=pour.press, at=TEN + MINUTE + SECOND)
    given_up = a_press(slot, "spoil", reason="fogged", pour=pour.press, at=TEN + 2 * MINUTE)

    for asked in (pour, on, back, given_up):
        taken(slot, asked)
        taken(slot, asked)
    for asked in (pour, on, back, given_up):
        taken(slot, asked)

    assert [stage for stage, _ in events()] == ["poured", "sensitised", "poured", "spoilt"]
    assert set(PlateEvent.objects.values_list("press", flat=True)) == {
        asked.press for asked in (pour, on, back, given_up)
    }


def test_taking_back_looks_at_when_it_was_pressed_and_not_at_when_it_was_sent(slot):
    pour = a_press(slot)
    taken(slot, pour)

    taken(slot, a_press(slot, "undo", pour=pour.press, at=TEN + 30 * SECOND))

    assert Plate.objects.get().spoilt_reason == "mistake"


def test_taking_back_later_than_half_a_minute_is_refused(slot):
    pour = a_press(slot)
    taken(slot, pour)

    with pytest.raises(TooLate, match=r"^A press can be taken back for 30 seconds; that time is over\.$"):
        taken(slot, a_press(slot, "undo", pour=pour.press, at=TEN + 31 * SECOND))


def test_a_pour_is_not_taken_back_twice(slot):
    pour = a_press(slot)
    taken(slot, pour)
    taken(slot, a_press(slot, "undo", pour=pour.press, at=TEN + SECOND))

    with pytest.raises(PressRefused, match=r"^The pour of plate 1 has been taken back already\.$"):
        taken(slot, a_press(slot, "undo", pour=pour.press, at=TEN + 2 * SECOND))


@pytest.mark.parametrize(
    ("at", "sentence"),
    [
        (TEN + 61 * SECOND, "The clock of that telephone is ahead: set it right, then press again."),
        (
            TEN - timedelta(hours=12, seconds=1),
            "That press is more than 12 hours old, too old to be entered here.",
        ),
    ],
)
def test_a_press_from_too_far_off_is_refused(slot, at, sentence):
    with pytest.raises(PressRefused) as refused:
        taken(slot, a_press(slot, at=at), now=TEN)

    assert (str(refused.value), events()) == (sentence, [])


@pytest.mark.parametrize(
    ("at", "entered"),
    [(TEN + 60 * SECOND, TEN), (TEN - timedelta(hours=12), TEN - timedelta(hours=12)), (TEN, TEN)],
)
def test_up_to_there_it_is_entered_but_never_in_the_future(slot, at, entered):
    taken(slot, a_press(slot, at=at), now=TEN)

    assert events() == [("poured", entered)]


def test_two_clocks_that_differ_by_less_than_a_minute_leave_the_order_of_a_plate_as_it_is(slot):
    plate = builders.made_plate(slot, "sensitised", TEN)

    taken(slot, a_press(slot, "stage", stage="exposed", plate=plate.number, at=TEN - 60 * SECOND))

    assert events()[-1] == ("exposed", TEN)


def test_a_press_from_before_the_plate_was_moved_on_is_refused(slot):
    plate = builders.made_plate(slot, "sensitised", TEN)

    with pytest.raises(
        PressRefused, match=r"^Plate 1 has been moved on since that press, so the press was left out\.$"
    ):
        taken(slot, a_press(slot, "stage", stage="exposed", plate=plate.number, at=TEN - 61 * SECOND))


def test_what_another_telephone_has_pressed_already_is_left_as_it_is(slot):
    plate = builders.made_plate(slot, "sensitised", TEN)

    taken(slot, a_press(slot, "stage", stage="sensitised", plate=plate.number, at=TEN - 5 * MINUTE))

    assert events() == [("poured", TEN), ("sensitised", TEN)]


def test_no_stage_is_passed_over(slot):
    plate = builders.made_plate(slot, "poured", TEN)

    with pytest.raises(
        StageOutOfOrder, match=r"^Plate 1 is poured; the next stage is sensitised, not exposed\.$"
    ):
        taken(slot, a_press(slot, "stage", stage="exposed", plate=plate.number, at=TEN))


def test_a_press_on_a_plate_given_up_meanwhile_never_moves_the_one_made_for_it(slot):
    first = builders.made_plate(slot, "poured", TEN)
    ledger.spoil(plate_id=first.pk, reason="fogged", note="", operator=None, now=TEN)
    builders.made_plate(slot, "poured", TEN)

    with pytest.raises(StageOutOfOrder, match=r"^Plate 1 is spoilt; nothing follows\.$"):
        taken(slot, a_press(slot, "stage", stage="sensitised", plate=first.number, at=TEN + MINUTE))

    assert sorted(Plate.objects.values_list("stage", flat=True)) == ["poured", "spoilt"]


def test_a_pour_where_another_telephone_has_poured_is_refused(slot):
    builders.made_plate(slot, "poured", TEN)

    with pytest.raises(SlotTaken, match=r"^A plate for this place in the order is already being made\.$"):
        taken(slot, a_press(slot, at=TEN + MINUTE))


def test_what_follows_a_refused_pour_is_refused_too(slot):
    with pytest.raises(
        PressRefused, match=r"^The plate of this press was never entered as poured, so nothing was changed\.$"
    ):
        taken(slot, a_press(slot, "stage", stage="sensitised", pour=uuid4()))


def test_a_plate_of_another_day_is_not_touched_from_this_one(slot):
    with pytest.raises(PressRefused, match=r"^That plate is not made on this day\.$"):
        taken(slot, a_press(slot), day_id=slot.job.day_id + 1)

    assert events() == []


@pytest.mark.parametrize("stage", ["varnished", "ready", "handed_over"])
def test_nothing_beyond_the_rack_is_pressed_in_the_tent(slot, stage):
    """There nobody knows what is owed: a plate would leave the house unpaid."""
    before = {"varnished": "drying", "ready": "varnished", "handed_over": "ready"}[stage]
    plate = builders.made_plate(slot, before, TEN)

    with pytest.raises(PressRefused, match=r"^In the tent a plate comes as far as the rack\."):
        taken(slot, a_press(slot, "stage", stage=stage, plate=plate.number, at=TEN + MINUTE))

    assert Plate.objects.get().stage == before
