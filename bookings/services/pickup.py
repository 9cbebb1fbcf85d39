"""From the rack to the right hands."""

from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction
from django.utils.translation import gettext as _

from bookings.errors import BalanceOwed
from bookings.formats import amount
from bookings.models import Notice, NoticeKind, Order, OrderLine
from bookings.selectors.orders import account
from bookings.selectors.pickup import ready_untold
from bookings.services import notices
from plates.models import Plate, Stage
from plates.services import ledger


def announce_ready(*, now: datetime) -> list[Notice]:
    """Queue one letter for each order whose every plate is ready and whose client has not been told."""
    return [notices.queue(order=order, kind=NoticeKind.READY, due_at=now) for order in ready_untold()]


@transaction.atomic
def move_on(*, plate_id: int, stage: str, operator: User | None, now: datetime) -> Plate:
    """Move a plate on by one stage; into a client's hands only once nothing is owed (BalanceOwed)."""
    if stage == Stage.HANDED_OVER:
        _refuse_while_owed(plate_id)
    return ledger.record_stage(plate_id=plate_id, stage=stage, operator=operator, now=now)


def _refuse_while_owed(plate_id: int) -> None:
    line = OrderLine.objects.select_related("order__terms").get(slot__plates=plate_id)
    # Locked, so that a refund cannot slip in between the look and the handing over.
    order = Order.objects.select_for_update(of=("self",)).select_related("terms").get(pk=line.order_id)
    owed = account(order)
    if not owed.settled:
        raise BalanceOwed(
            _(
                "{owed} is still owed on order {reference}. Record the payment first, then hand the plate over."
            ).format(owed=amount(owed.owed, owed.currency), reference=order.reference)
        )
