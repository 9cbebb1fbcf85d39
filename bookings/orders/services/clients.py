"""What is noted about a client after the booking."""

from dataclasses import asdict, dataclass

from django.db import transaction
from django.utils.translation import gettext as _

from bookings.errors import InvoiceRefused, NotPlaced
from bookings.orders.models import Client, Order


@dataclass(frozen=True, slots=True)
class MadeOutTo:
    """Whom invoices are made out to; all may be empty: then it is the name of the client."""

    company: str = ""
    address: str = ""
    country: str = ""
    tax_number: str = ""


@transaction.atomic
def make_out_to(*, order_id: int, to: MadeOutTo) -> Client:
    """Note whom the next invoice of an order is made out to. What is issued already stays as it is. NotPlaced."""
    order = Order.objects.locked(order_id)
    if order.client is None:
        raise NotPlaced(_("Nobody has put a name to this order yet, so it cannot be invoiced."))
    client = Client.objects.select_for_update().get(pk=order.client.pk)
    if client.erased_at is not None:
        raise InvoiceRefused(_("This client asked to be forgotten; nothing more is noted about them."))
    for name, value in asdict(to).items():
        setattr(client, name, value)
    client.save(update_fields=list(asdict(to)))
    return client
