"""What the letters to people on a waiting list say."""

from django.conf import settings
from django.urls import reverse

from bookings.common import formats
from bookings.orders import links
from bookings.orders.models import Order
from bookings.orders.selectors.account import account
from bookings.studio.models import Studio
from bookings.waitlist import links as waiting_links
from bookings.waitlist.models import Waiting


def context(place: Waiting, studio: Studio) -> dict[str, object]:
    """What the templates of both letters may say; dates, times and money are written out already."""
    day = place.day
    return {
        "studio": studio,
        "studio_address": studio.address.splitlines(),
        "place": ", ".join([day.venue.name, *day.venue.address.splitlines()]),
        "date": formats.long_date(day.bench_day.on, studio.locale),
        "earliest": formats.clock(day.local(place.earliest)),
        "latest": formats.clock(day.local(place.latest)),
        "list_link": settings.SITE_ADDRESS + waiting_links.path(place),
        **(_offer(place, place.order, studio) if place.order is not None else {}),
    }


def _offer(place: Waiting, order: Order, studio: Studio) -> dict[str, object]:
    owing, job = account(order), order.sitting.bench_job
    return {
        "when": formats.moment(place.day.local(job.starts_at), studio.locale),
        "held_until": formats.moment(place.day.local(job.held_until), studio.locale),
        "total": formats.amount(owing.gross, order.currency, studio.locale),
        "deposit": formats.amount(owing.deposit, order.currency, studio.locale) if owing.deposit else "",
        "lines": [(line.quantity, line.text) for line in order.lines.all()],
        "link": settings.SITE_ADDRESS + reverse("details", args=[links.checkout_token(order)]),
    }
