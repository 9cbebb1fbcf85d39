"""What the dark tent shows of a day."""

import json
from datetime import UTC, datetime, time, timedelta
from uuid import UUID, uuid4

import pytest

from bookings.diary.models import SittingDay
from plates.bench.models import PlateSlot, Stage
from plates.bench.selectors import days_ahead
from plates.ledger.services import events as ledger
from plates.ledger.services.undo import undo_press
from plates.tent.clocks import clocks
from plates.tent.selectors import screen as tent
from plates.tent.selectors.plates import tent_plates
from tests import builders

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
MINUTE = timedelta(minutes=1)


@pytest.fixture
def day():
    return builders.a_day().bench_day


@pytest.fixture
def slots(day):
    """Two plates of one sitting at ten, one of another at eleven."""
    sitting_day = SittingDay.objects.get(bench_day=day)
    builders.a_paid_order(sitting_day, at=time(11), sizes=("half",), name="Wren Achterberg")
    builders.a_paid_order(sitting_day, at=time(10), sizes=("quarter", "sixth"))
    return list(PlateSlot.objects.order_by("job__starts_at", "position"))


def shown(day, now=TEN):
    return tent_plates(day=day, now=now)


def hand(day, now=TEN, asked=0):
    rows = clocks(day.bench.as_capacity().timings)
    found = tent.in_hand(plates=shown(day, now), rows=rows, asked=asked, now=now)
    return found.plate.slot if found else None


def test_the_plates_of_the_day_come_in_the_order_of_their_planned_pours(day, slots):
    found = shown(day)

    assert [(plate.slot, plate.size, plate.place) for plate in found] == [
        (slots[0].pk, "quarter", "1 of 2"),
        (slots[1].pk, "sixth", "2 of 2"),
        (slots[2].pk, "half", "1 of 1"),
    ]
    # The stored plan of each job is what was promised.
    pours = [slots[0].job.plan["plates"][0], slots[0].job.plan["plates"][1], slots[2].job.plan["plates"][0]]
    assert [plate.planned for plate in found] == [day.instant(pour["pour"]) for pour in pours]


def test_a_plate_tells_its_number_and_the_stages_that_hold(day, slots):
    key = uuid4()
    plate = ledger.pour(slot_id=slots[0].pk, operator=None, now=TEN, press=key)
    ledger.record_stage(plate_id=plate.pk, stage="sensitised", operator=None, now=TEN + 5 * MINUTE)
    undo_press(plate_id=plate.pk, operator=None, now=TEN + 5 * MINUTE)

    first = shown(day)[0]

    assert (first.number, first.pour, first.events) == (plate.number, key, (("poured", TEN),))
    assert first.step == ("sensitised", "Out of the bath")


def test_a_pour_taken_back_leaves_a_plate_to_pour(day, slots):
    plate = ledger.pour(slot_id=slots[0].pk, operator=None, now=TEN)
    undo_press(plate_id=plate.pk, operator=None, now=TEN)

    first = shown(day)[0]

    assert (first.number, first.events, first.step) == (None, (), ("poured", "Pour"))


def test_a_spoilt_plate_is_poured_again_where_the_plan_has_room(day, slots):
    plate = ledger.pour(slot_id=slots[0].pk, operator=None, now=TEN)
    ledger.spoil(plate_id=plate.pk, reason="fogged", note="", operator=None, now=TEN + MINUTE)

    found = {each.slot: each for each in shown(day)}[slots[0].pk]

    assert found.step == ("poured", "Pour again")
    assert found.again == (plate.number,)
    plate.refresh_from_db()
    assert found.planned == plate.retake.starts_at


def test_the_wet_plate_is_taken_in_hand_before_the_one_that_is_promised(day, slots):
    builders.made_plate(slots[2], Stage.SENSITISED, TEN)

    assert hand(day) == slots[2].pk


def test_a_plate_that_was_asked_for_stays_in_hand_while_there_is_work_on_it(day, slots):
    builders.made_plate(slots[2], Stage.SENSITISED, TEN)
    builders.made_plate(slots[1], Stage.DRYING, TEN)

    assert hand(day, asked=slots[0].pk) == slots[0].pk
    assert hand(day, asked=slots[1].pk) == slots[2].pk


def test_from_the_rack_on_nothing_is_left_for_the_tent(day, slots):
    for slot in slots:
        builders.made_plate(slot, Stage.VARNISHED, TEN)

    assert hand(day) is None
    assert tent.newest_press(plates=shown(day), now=TEN) is None


def test_the_newest_press_can_be_taken_back_for_half_a_minute(day, slots):
    builders.made_plate(slots[0], Stage.WASHING, TEN)
    builders.made_plate(slots[1], Stage.POURED, TEN + MINUTE)

    def newest(seconds):
        now = TEN + MINUTE + timedelta(seconds=seconds)
        found = tent.newest_press(plates=shown(day), now=now)
        return found and found.slot

    assert (newest(30), newest(31)) == (slots[1].pk, None)


def test_the_state_is_plain_and_carries_no_name(day, slots):
    plate = builders.made_plate(slots[0], Stage.POURED, TEN)

    told = tent.as_json(day=day, plates=shown(day), now=TEN)

    words = json.dumps(told)
    assert json.loads(words)["plates"][0]["events"] == [
        ["poured", 1795860000000]
    ]  # date -d 2026-11-28T10:00Z +%s
    assert told["plates"][0]["number"] == plate.number
    assert "Madrugada" not in words


def test_the_same_few_queries_for_any_number_of_plates(day, slots, django_assert_num_queries):
    builders.made_plate(slots[0], Stage.POURED, TEN)
    with django_assert_num_queries(4):
        shown(day)
    for slot in slots[1:]:
        builders.made_plate(slot, Stage.WASHING, TEN)
    with django_assert_num_queries(4):
        shown(day)


@pytest.mark.parametrize(
    ("seconds", "words"), [(0, "0:00"), (65, "1:05"), (5999, "99:59"), (6000, "1 h 40"), (7199, "1 h 59")]
)
def test_digits_are_minutes_until_they_would_be_too_wide(seconds, words):
    assert tent.digits(seconds) == words


def test_a_number_of_a_press_is_a_uuid(day, slots):
    key = UUID("12345678-1234-4234-8234-123456789abc")
    ledger.pour(slot_id=slots[0].pk, operator=None, now=TEN, press=key)

    assert tent.as_json(day=day, plates=shown(day), now=TEN)["plates"][0]["pour"] == str(key)


def test_the_days_ahead_are_those_whose_racks_are_not_empty_yet(day):
    bench = day.bench

    assert days_ahead(bench=bench, now=day.racks_empty_by - MINUTE) == [day]
    assert days_ahead(bench=bench, now=day.racks_empty_by) == []


def test_beside_the_plates_being_made_stand_the_two_to_be_poured_next(day, slots):
    sitting_day = SittingDay.objects.get(bench_day=day)
    builders.a_paid_order(sitting_day, at=time(12), name="Ottilie Marrow")
    builders.made_plate(slots[2], Stage.WASHING, TEN)
    last = PlateSlot.objects.order_by("job__starts_at").last()

    beside, later = tent.others(plates=shown(day), hand=0)

    assert [plate.slot for plate in beside] == [slots[2].pk, slots[0].pk, slots[1].pk]
    assert [plate.slot for plate in later] == [last.pk]
