"""A promised sitting, and rounds in which the letters that are due go out."""

from datetime import UTC, datetime, timedelta

from django.core import mail as outbox

from bookings.handover.services import pickup
from bookings.letters.services import reminders
from bookings.letters.services import sending as notices
from bookings.outbox.models import Notice
from tests import builders
from tests.builders import NOW

HOUR, MINUTE = timedelta(hours=1), timedelta(minutes=1)
STARTS = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
DAY_BEFORE = STARTS - 24 * HOUR


def a_promised_order(day):
    order = builders.a_paid_order(day)
    a_round(NOW)
    return order


def letters(order, kind):
    return list(order.notices.filter(kind=kind).order_by("pk"))


def a_round(now):
    """What a drain does about letters, without the work that takes long."""
    pickup.announce_ready(now=now)
    reminders.queue_due(now=now)
    notices.send_due(now=now)


def sent_kinds(*, now):
    before = len(outbox.outbox)
    a_round(now)
    ids = [letter.extra_headers["Message-ID"] for letter in outbox.outbox[before:]]
    return sorted(Notice.objects.filter(message_id__in=ids).values_list("kind", flat=True))
