"""The words of an invented order, to show what a letter says before anybody gets it. No row is read or written."""

from datetime import datetime, timedelta
from typing import Any

from django.conf import settings
from django.utils.translation import gettext as _

from bookings.access.models import Purpose
from bookings.common import formats
from bookings.diary.models import Venue
from bookings.handover.models import Parcel
from bookings.orders.models import CancelCause, ConsentPurpose, Order
from bookings.outbox.models import NoticeKind
from bookings.studio.models import Studio


def context(kind: NoticeKind, studio: Studio, *, now: datetime) -> dict[str, Any]:
    """Everything that any letter can say, of a sitting ten days after `now`, at the studio."""
    starts_at = (now + timedelta(days=10)).replace(hour=10, minute=30, second=0, microsecond=0)
    cancelled = kind == NoticeKind.CANCELLED
    order = Order(reference="EXAMPLE2", currency=studio.currency, cancelled_at=now if cancelled else None)
    order.cancel_cause = CancelCause.CLIENT if cancelled else ""
    link = f"{settings.SITE_ADDRESS}/sitting/example/"
    return {
        "studio": studio,
        "studio_address": studio.address.splitlines(),
        "name": "Ines Madrugada",
        "order": order,
        "venue": Venue(name=studio.name, address=studio.address, finding_it=_("The green door.")),
        "place": ", ".join([studio.name, *studio.address.splitlines()]),
        "lines": [(2, _("quarter plate")), (1, _("velvet case"))],
        "plates": [_("Plate 41, quarter"), _("Plate 42, quarter")],
        "said_yes": [str(ConsentPurpose.SHOW.label)],
        "purpose": Purpose.DATA.label,
        "pickup_code": "ABC DEF",
        "by_post": False,
        "kept_days": 60,
        "parcel": Parcel(carrier=_("Harbour Post"), number="HP 0042"),
        "link": link,
        "stop_link": "",
        "list_link": f"{settings.SITE_ADDRESS}/waiting/example/",
        "earliest": "10:00",
        "latest": "12:00",
        **_times(studio, starts_at),
        **_sums(studio),
        **_papers(studio, starts_at),
    }


def _times(studio: Studio, starts_at: datetime) -> dict[str, Any]:
    later = starts_at + timedelta(minutes=25)
    return {
        "date": formats.long_date(starts_at.date(), studio.locale),
        "clock": formats.clock(starts_at),
        "when": formats.moment(starts_at, studio.locale),
        "expected": formats.moment(later, studio.locale),
        "expected_clock": formats.clock(later),
        "later_minutes": 25,
        "held_until": formats.moment(starts_at - timedelta(days=8), studio.locale),
        "ready_by": formats.long_date(starts_at.date() + timedelta(days=7), studio.locale),
        "cancelling": _("You can cancel without charge at any time before your sitting."),
    }


def _sums(studio: Studio) -> dict[str, Any]:
    sums = {"total": 20000, "deposit": 10000, "deposit_owed": 10000, "paid": 10000, "owed": 10000}
    sums |= {"kept": 0, "returned": 10000, "left": 10000}
    return {
        name: formats.amount(minor, studio.currency, studio.locale) if minor else ""
        for name, minor in sums.items()
    }


def _papers(studio: Studio, on: datetime) -> dict[str, Any]:
    """What is said of an invoice and of a voucher."""
    return {
        "paper": _("Invoice"),
        "label": f"{studio.invoice_series}-{on:%Y}-0042",
        "asked": formats.amount(20000, studio.currency, studio.locale),
        "due_on": formats.long_date(on.date(), studio.locale),
        "value": formats.amount(10000, studio.currency, studio.locale),
        "code": "ABCD-EFGH-JKMN",
        "for_name": "Ines",
        "last_day": formats.long_date(on.date(), studio.locale),
    }
