"""Batches of work: many plates by one press, only those that have lain long enough, and each press once."""

from datetime import date, timedelta
from uuid import uuid4

import pytest

from plates.bench.models import Plate, PlateEvent, Stage
from plates.errors import NotDry, StageOutOfOrder
from plates.finishing import services as finishing
from plates.finishing.models import ClosedDay
from plates.ledger.services import events as ledger
from plates.ledger.services import undo
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

HOUR = timedelta(hours=1)


@pytest.fixture
def plates():
    """Three plates that came onto the rack at NOW, which dry in an hour and cure in a day."""
    builders.finishing()
    return made(builders.a_paid_order(builders.a_day(), sizes=["quarter"] * 3))


def made(order, stage=Stage.DRYING):
    return builders.made_plates(order, stage=stage)


def bring_on(plates, *, stage="varnished", now=NOW + HOUR, press=None):
    ids = [plate.pk for plate in plates]
    return finishing.bring_on(plate_ids=ids, stage=stage, press=press or uuid4(), operator=None, now=now)


def stages():
    return list(Plate.objects.order_by("number").values_list("stage", flat=True))


def test_many_plates_are_varnished_by_one_press(plates):
    bring_on(plates)

    assert stages() == ["varnished"] * 3
    assert Plate.objects.first().stage_at == NOW + HOUR


def test_the_same_press_again_changes_nothing(plates):
    press = uuid4()
    bring_on(plates, press=press)
    events = PlateEvent.objects.count()

    bring_on(plates, press=press, now=NOW + 2 * HOUR)

    assert (PlateEvent.objects.count(), stages()) == (events, ["varnished"] * 3)


def test_a_press_that_was_taken_back_does_not_come_again(plates):
    press = uuid4()
    bring_on(plates, press=press)
    undo.undo_press(plate_id=plates[0].pk, operator=None, now=NOW + HOUR)

    bring_on(plates, press=press, now=NOW + 2 * HOUR)

    assert stages() == ["drying", "varnished", "varnished"]


def test_one_plate_that_is_not_dry_keeps_all_of_them_back(plates):
    Plate.objects.filter(pk=plates[1].pk).update(stage_at=NOW + timedelta(minutes=50))

    with pytest.raises(NotDry) as refusal:
        bring_on(plates)

    assert str(refusal.value) == (
        "Not dry yet: plate 2 (10 minutes). The shortest time for it is 60 minutes, so nothing was "
        "changed. A plate that was dried by heat is pressed on by itself, in the queue."
    )
    assert stages() == ["drying"] * 3


def test_on_the_minute_a_plate_is_dry_and_a_second_before_it_is_not(plates):
    with pytest.raises(NotDry):
        bring_on(plates, now=NOW + HOUR - timedelta(seconds=1))
    bring_on(plates, now=NOW + HOUR)

    assert stages() == ["varnished"] * 3


def test_what_has_not_cured_is_not_packed(plates):
    bring_on(plates)

    with pytest.raises(NotDry, match=r"^Not cured yet: plate 1 \(23 hours\), plate 2"):
        bring_on(plates, stage="ready", now=NOW + 24 * HOUR)


def test_cured_plates_are_packed_together(plates):
    bring_on(plates)

    bring_on(plates, stage="ready", now=NOW + 25 * HOUR)

    assert stages() == ["ready"] * 3


def test_a_plate_that_is_elsewhere_by_now_keeps_all_of_them_back(plates):
    ledger.spoil(plate_id=plates[2].pk, reason="damaged", note="", operator=None, now=NOW)

    with pytest.raises(StageOutOfOrder, match=r"^Plate 3 is spoilt; nothing follows\.$"):
        bring_on(plates)

    assert stages() == ["drying", "drying", "spoilt"]


@pytest.mark.parametrize("stage", ["handed_over", "drying", "no stage"])
def test_nothing_else_is_done_in_batches(plates, stage):
    with pytest.raises(StageOutOfOrder, match=r"^Plates are varnished or packed in batches"):
        bring_on(plates, stage=stage)


def test_a_day_is_closed_once_and_keeps_its_first_reason():
    finishing.close(days={date(2026, 12, 25): "Christmas Day"})
    finishing.close(days={date(2026, 12, 25): "Again", date(2026, 12, 26): ""})

    assert [str(day) for day in ClosedDay.objects.all()] == ["2026-12-25 Christmas Day", "2026-12-26"]


def test_a_closed_day_is_opened_again_and_safely_twice():
    finishing.close(days={date(2026, 12, 25): "Christmas Day"})
    closed = ClosedDay.objects.get()

    finishing.open_again(closed_day_id=closed.pk)
    finishing.open_again(closed_day_id=closed.pk)

    assert not ClosedDay.objects.exists()
