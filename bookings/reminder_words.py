"""What the letters say that time makes due, beside what every letter can say."""

from datetime import timedelta

from bookings import formats, stop_links
from bookings.models import REMINDERS, Client, Notice, Order, Studio
from bookings.selectors.letters import said_yes


def words(notice: Notice, order: Order, client: Client, studio: Studio) -> dict[str, object]:
    """Those words, written out; what is not there is an empty text."""
    sitting = order.sitting
    return {
        "clock": formats.clock(sitting.day.local(sitting.bench_job.starts_at)),
        "ready_on": _ready_on(order, studio),
        "said_yes": said_yes(client),
        "stop_link": stop_links.address_of(client.email) if notice.kind in REMINDERS else "",
    }


def _ready_on(order: Order, studio: Studio) -> str:
    """The day by which plates are usually ready; empty where the studio names none."""
    if studio.ready_days is None:
        return ""
    on = order.sitting.day.bench_day.on + timedelta(days=studio.ready_days)
    return formats.long_date(on, studio.locale)
