"""Plates to the post: by which carrier and under which number, and a letter that says so."""

from datetime import datetime
from uuid import UUID

from django.contrib.auth.models import User
from django.db import transaction
from django.utils.translation import gettext as _

from bookings.errors import HandoverRefused
from bookings.handover.models import HandedTo, Handover, Parcel, Receipt
from bookings.handover.services import handing_over as handover
from bookings.orders.models import Order
from bookings.outbox import services as outbox


@transaction.atomic
def post(
    *, order_id: int, carrier: str, number: str, press: UUID, operator: User | None, now: datetime
) -> Parcel:
    """Give every ready plate of an order to the post, and write to the client; the same press twice does it once.

    BalanceOwed while money is owed; HandoverRefused without an address, and where no plate is ready.
    """
    order = handover.locked_order(order_id=order_id)
    if done := Handover.objects.filter(press=press).first():
        return done.parcel
    _refuse_without_address(order)
    given = handover.record(
        order=order,
        plates=handover.collectable(order=order),
        to=HandedTo.POST,
        by_code=False,
        receipt=Receipt(),
        press=press,
        operator=operator,
        now=now,
    )
    parcel = Parcel.objects.create(handover=given, carrier=carrier, number=number)
    outbox.queue_parcel(parcel=parcel, due_at=now)
    return parcel


@transaction.atomic
def correct(*, parcel_id: int, carrier: str, number: str, now: datetime) -> Parcel:
    """Correct the carrier or the number of a parcel, and write to the client again if that changes anything."""
    parcel = (
        Parcel.objects.select_for_update(of=("self",)).select_related("handover__order").get(pk=parcel_id)
    )
    if (parcel.carrier, parcel.number) == (carrier, number):
        return parcel
    parcel.carrier, parcel.number = carrier, number
    parcel.save(update_fields=["carrier", "number"])
    outbox.queue_parcel(parcel=parcel, occasion=f"{parcel.pk} {parcel.notices.count()}", due_at=now)
    return parcel


def _refuse_without_address(order: Order) -> None:
    client = order.client
    if client is None or not client.address or not client.country:
        raise HandoverRefused(
            _(
                "There is no address for order {reference}. Enter it under “made out to”, or ask the client for it."
            ).format(reference=order.reference)
        )
