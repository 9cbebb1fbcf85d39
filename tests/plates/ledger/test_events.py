"""Every plate's way, press by press. The order of the stages is the trade's own (common practice, no source)."""

from datetime import UTC, datetime, timedelta
from itertools import pairwise

import pytest

from plates.bench.models import Plate, PlateEvent, PlateSlot, Stage
from plates.errors import JobReleased, SlotTaken, StageOutOfOrder
from plates.ledger.services import events as ledger
from plates.schedule.services import jobs as bench
from tests import builders

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
IN_ORDER = [
    "poured", "sensitised", "exposed", "developed", "fixed", "washing", "drying", "varnished", "ready",
    "handed_over",
]  # fmt: skip


@pytest.fixture
def slots():
    """The two promised plates of one order."""
    order = builders.a_paid_order(builders.a_day(), sizes=("quarter", "half"))
    return list(PlateSlot.objects.filter(job=order.sitting.bench_job_id))


def poured(slot, *, operator=None):
    return ledger.pour(slot_id=slot.pk, operator=operator, now=TEN)


def at_stage(slot, stage):
    plate = poured(slot)
    for following in IN_ORDER[1 : IN_ORDER.index(stage) + 1]:
        ledger.record_stage(plate_id=plate.pk, stage=following, operator=None, now=TEN)
    return plate


def spoilt(plate):
    return ledger.spoil(plate_id=plate.pk, reason="fogged", note="", operator=None, now=TEN)


def test_a_poured_plate_gets_the_next_running_number_and_its_first_event(slots):
    operator = builders.an_operator()

    plates = [poured(slot, operator=operator) for slot in slots]

    assert [(plate.number, plate.size.name, plate.stage) for plate in plates] == [
        (1, "quarter", "poured"),
        (2, "half", "poured"),
    ]
    events = PlateEvent.objects.values_list("plate__number", "stage", "at", "operator__username")
    assert list(events) == [(1, "poured", TEN, "operator"), (2, "poured", TEN, "operator")]


def test_a_plate_goes_through_every_stage_in_order_and_each_is_kept_with_its_time(slots):
    plate = poured(slots[0])

    for minute, stage in enumerate(IN_ORDER[1:], start=1):
        at = TEN + timedelta(minutes=minute)
        ledger.record_stage(plate_id=plate.pk, stage=stage, operator=None, now=at)

    kept = list(plate.events.values_list("stage", "at"))
    assert kept == [(stage, TEN + timedelta(minutes=minute)) for minute, stage in enumerate(IN_ORDER)]
    plate.refresh_from_db()
    assert (plate.stage, plate.stage_at) == ("handed_over", TEN + timedelta(minutes=9))


@pytest.mark.parametrize(
    ("stage", "asked", "sentence"),
    [
        ("poured", "exposed", "Plate 1 is poured; the next stage is sensitised, not exposed."),
        ("exposed", "sensitised", "Plate 1 is exposed; the next stage is developed, not sensitised."),
        ("washing", "handed_over", "Plate 1 is washing; the next stage is drying, not handed over."),
        ("poured", "spoilt", "Plate 1 is poured; the next stage is sensitised, not spoilt."),
        ("handed_over", "poured", "Plate 1 is handed over; nothing follows."),
        ("fixed", "", "Plate 1 is fixed; the next stage is washing."),
        ("fixed", "polished", "Plate 1 is fixed; the next stage is washing."),
    ],
)
def test_a_stage_out_of_order_is_refused_with_what_comes_next(slots, stage, asked, sentence):
    plate = at_stage(slots[0], stage)

    with pytest.raises(StageOutOfOrder) as refusal:
        ledger.record_stage(plate_id=plate.pk, stage=asked, operator=None, now=TEN)

    assert str(refusal.value) == sentence
    assert PlateEvent.objects.count() == IN_ORDER.index(stage) + 1


def said(plate, asked):
    """The refusal of a press, "" where it was entered."""
    try:
        ledger.record_stage(plate_id=plate.pk, stage=asked, operator=None, now=TEN)
    except StageOutOfOrder as refusal:
        return str(refusal)
    return ""


@pytest.mark.parametrize("stage", [*IN_ORDER, "spoilt"])
def test_from_every_stage_all_steps_but_the_next_are_refused_with_a_sentence(slots, stage):
    """No exposing before the bath, no varnish on a wet plate, nothing after the end: a hundred and one wrong steps."""
    plate = spoilt(poured(slots[0])) if stage == "spoilt" else at_stage(slots[0], stage)
    following = dict(pairwise(IN_ORDER)).get(stage)
    events = plate.events.count()

    words = {asked: said(plate, asked) for asked in Stage.values if asked not in (stage, following)}

    for asked, sentence in words.items():
        ends = f"the next stage is {following}, not {asked}." if following else "nothing follows."
        assert sentence == f"Plate 1 is {stage}; {ends}".replace("_", " ")
    assert len(words) == (10 if following is None else 9)
    plate.refresh_from_db()
    assert (plate.stage, plate.events.count()) == (stage, events)


def test_the_same_press_twice_moves_the_plate_once(slots):
    plate = at_stage(slots[0], "sensitised")

    ledger.record_stage(plate_id=plate.pk, stage="sensitised", operator=None, now=TEN + timedelta(minutes=1))

    assert list(plate.events.values_list("stage", "at")) == [("poured", TEN), ("sensitised", TEN)]


def test_a_place_in_an_order_has_one_plate_under_way(slots):
    poured(slots[0])

    with pytest.raises(SlotTaken, match=r"^A plate for this place in the order is already being made\.$"):
        poured(slots[0])

    assert Plate.objects.count() == 1


def test_a_spoilt_plate_keeps_its_reason_and_frees_its_place_for_a_retake(slots):
    first = at_stage(slots[0], "developed")
    note = "a comet from the corner"

    ledger.spoil(plate_id=first.pk, reason="streaked", note=note, operator=None, now=TEN)

    retake = poured(slots[0])
    first.refresh_from_db()
    assert (first.stage, first.spoilt_reason, first.events.last().note) == ("spoilt", "streaked", note)
    assert (retake.number, retake.slot_id) == (2, slots[0].pk)


def test_spoiling_twice_keeps_the_first_reason(slots):
    plate = spoilt(poured(slots[0]))

    ledger.spoil(plate_id=plate.pk, reason="dried", note="", operator=None, now=TEN)

    plate.refresh_from_db()
    assert plate.spoilt_reason == "fogged"
    assert plate.events.filter(stage=Stage.SPOILT).count() == 1


def test_a_plate_in_its_owners_hands_is_not_spoilt(slots):
    plate = at_stage(slots[0], "handed_over")

    with pytest.raises(
        StageOutOfOrder, match=r"^Plate 1 is in its owner's hands and can no longer be spoilt here\.$"
    ):
        spoilt(plate)


def test_no_plate_is_poured_for_a_sitting_that_was_given_back(slots):
    bench.release(job_id=slots[0].job_id, now=builders.NOW)

    with pytest.raises(JobReleased, match=r"^This sitting was given back, so no plate is made for it\.$"):
        poured(slots[0])
