"""Letters that wait for a mail server."""

from bookings.outbox import services as outbox
from bookings.outbox.models import Notice, NoticeKind
from tests import builders
from tests.builders import NOW


def an_order_without_letters():
    """A placed order; the letters that it had by itself are sent."""
    order = builders.a_placed_order(builders.a_day())
    Notice.objects.update(sent_at=NOW)
    return order


def three_letters(order):
    """Three letters that are due and stay true."""
    return [outbox.queue(order=order, kind=NoticeKind.CONFIRMED, due_at=NOW, occasion=each) for each in "abc"]
