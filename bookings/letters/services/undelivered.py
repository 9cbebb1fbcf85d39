"""Letters that could not be delivered: their address is put right, and they go out once more."""

from datetime import datetime

from django.db import transaction
from django.utils.translation import gettext as _

from bookings.errors import NotPlaced
from bookings.orders.models import Client, Order
from bookings.outbox.models import Notice
from bookings.outbox.services import ring


@transaction.atomic
def send_again(*, order_id: int, email: str, now: datetime) -> int:
    """Write to the client of an order at `email` from now on, and send what was given up; return how many letters.

    They tell of the order as it stands when they go, and what is no longer true is withdrawn. NotPlaced where there is
    nobody to write to.
    """
    order = Order.objects.locked(order_id)
    client = Client.objects.filter(orders=order, erased_at=None).first()
    if client is None:
        raise NotPlaced(_("There is nobody to write to: the order has no client, or the client was erased."))
    if client.email != email:
        client.email = email
        client.save(update_fields=["email"])
    given_up = Notice.objects.filter(order__client=client, given_up_at__isnull=False, sent_at=None)
    transaction.on_commit(ring)
    return given_up.filter(withdrawn_at=None).update(
        given_up_at=None, dead_address=False, tries=0, last_error="", due_at=now, claimed_until=None
    )
