"""What the letters say that time makes due, beside what every letter can say."""

from bookings.common import formats
from bookings.letters import unsubscribe as stop_links
from bookings.letters.selectors.validity import consents_given
from bookings.orders.models import Client, Order
from bookings.outbox.models import REMINDERS, Notice


def context(notice: Notice, order: Order, client: Client) -> dict[str, object]:
    """Those words, written out; what is not there is an empty text."""
    sitting = order.sitting
    return {
        "clock": formats.clock(sitting.day.local(sitting.bench_job.starts_at)),
        "said_yes": consents_given(client),
        "stop_link": stop_links.address_of(client.email) if notice.kind in REMINDERS else "",
    }
