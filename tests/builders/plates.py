"""Plates of an order, poured and brought on."""

from datetime import datetime

from bookings.orders.models import Order
from plates.bench.models import Plate, PlateSlot, Stage
from plates.ledger.services import events as ledger
from tests.builders.days import NOW

STAGES = [stage for stage in Stage if stage != Stage.SPOILT]


def made_plates(order: Order, *, stage: Stage = Stage.READY, now: datetime = NOW) -> list[Plate]:
    """Every promised plate of the order, poured and brought as far as `stage`."""
    slots = PlateSlot.objects.filter(job=order.sitting.bench_job_id)
    return [made_plate(slot, stage, now) for slot in slots]


def made_plate(slot: PlateSlot, stage: Stage, now: datetime) -> Plate:
    plate = ledger.pour(slot_id=slot.pk, operator=None, now=now)
    for following in STAGES[1 : STAGES.index(stage) + 1]:
        plate = ledger.record_stage(plate_id=plate.pk, stage=following, operator=None, now=now)
    return plate
