"""From the rack to the right hands."""

from datetime import datetime
from uuid import uuid4

from django.contrib.auth.models import User
from django.db import transaction

from bookings.common.codes import new_code
from bookings.handover.models import HandedTo, Receipt
from bookings.handover.selectors.desk import not_reminded, ready_untold
from bookings.handover.services import handing_over as handover
from bookings.orders.models import Order, OrderLine
from bookings.outbox import services as outbox
from bookings.outbox.models import Notice, NoticeKind
from plates.bench.models import Plate, Stage
from plates.ledger.services import events as ledger


def announce_ready(*, now: datetime) -> list[Notice]:
    """Queue one letter for each order whose every plate is ready and whose client has not been told."""
    return [outbox.queue(order=order, kind=NoticeKind.READY, due_at=now) for order in ready_untold()]


def remind_uncollected(*, now: datetime) -> list[Notice]:
    """Queue one letter for each order whose plates were not collected in the agreed time; an order has one, ever."""
    return [
        outbox.queue(order=order, kind=NoticeKind.NOT_COLLECTED, due_at=now)
        for order in not_reminded(now=now)
    ]


@transaction.atomic
def move_on(*, plate_id: int, stage: str, operator: User | None, now: datetime) -> Plate:
    """Move a plate on by one stage; into a client's hands only once nothing is owed (BalanceOwed)."""
    if stage == Stage.HANDED_OVER:
        return _into_hands(plate_id, operator, now)
    return ledger.record_stage(plate_id=plate_id, stage=stage, operator=operator, now=now)


def _into_hands(plate_id: int, operator: User | None, now: datetime) -> Plate:
    """One plate given to the client, as the press in the queue says it: without a code or a signature."""
    order = handover.locked_order(order_id=OrderLine.objects.get(slot__plates=plate_id).order_id)
    handover.refuse_while_owed(order=order)
    plate = ledger.locked(plate_id=plate_id)
    if plate.stage != Stage.HANDED_OVER:
        handover.record(
            order=order,
            plates=[plate],
            to=HandedTo.CLIENT,
            by_code=False,
            receipt=Receipt(),
            press=uuid4(),
            operator=operator,
            now=now,
        )
        plate.refresh_from_db()
    return plate


def give(*, order: Order) -> None:
    """Give a placed order its code, once."""
    if order.pickup_code is None:
        order.pickup_code = new_code()
        order.save(update_fields=["pickup_code"])
