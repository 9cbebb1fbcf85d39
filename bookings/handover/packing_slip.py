"""The packing slip of an order: what lies in the parcel, for whom, and how a plate is kept."""

from datetime import datetime

from bookings.common import formats
from bookings.common import paper as press
from bookings.common.countries import country_name
from bookings.handover.selectors.desk import ready_plates
from bookings.orders.models import Order
from bookings.studio.selectors import the_studio


def packing_slip_pdf(order: Order, *, now: datetime) -> bytes:
    """Print it with the plates that are ready; without prices, for whoever opens the parcel."""
    studio, client, day = the_studio(), order.client, order.sitting.day
    address = [*client.address.splitlines(), country_name(client.country)] if client else []
    return press.pdf(
        "bookings/handover/packing_slip.html",
        {
            "studio": studio,
            "studio_address": studio.address.splitlines(),
            "order": order,
            "name": client.name if client else "",
            "address": [line for line in address if line],
            "plates": ready_plates(order),
            "extras": [line for line in order.lines.all() if line.extra_id is not None],
            "printed": formats.moment(day.local(now), studio.locale),
        },
        paper=press.Paper.of(studio.country),
    )
