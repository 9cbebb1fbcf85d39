"""What needs the owner's eye. Nothing here writes."""

from dataclasses import dataclass
from datetime import datetime

from django.db.models import Exists, OuterRef, Prefetch, Q

from bookings.models import Notice, Order
from bookings.selectors import books


@dataclass(frozen=True, slots=True)
class Troubles:
    """Letters that could not be sent, paid orders whose place was gone when the money came, and overdue invoices."""

    unsent: list[Notice]
    without_a_place: list[Order]
    overdue: list[books.Standing]

    def __bool__(self) -> bool:
        return bool(self.unsent or self.without_a_place or self.overdue)


def open_troubles(*, now: datetime) -> Troubles:
    """One query where there is no trouble, two where there is, five where an invoice may be overdue."""
    letters = Notice.objects.filter(given_up_at__isnull=False, sent_at__isnull=True)
    without_a_place = Q(needs_new_time=True, cancelled_at__isnull=True)
    unsent = Exists(letters.filter(order=OuterRef("pk")))
    late = Exists(books.may_be_overdue(now=now).filter(pk=OuterRef("pk")))
    found = Order.objects.annotate(late=late).filter(without_a_place | unsent | Q(late=True)).order_by("pk")
    orders = list(found.prefetch_related(Prefetch("notices", letters, to_attr="unsent_letters")))
    return Troubles(
        unsent=[letter for order in orders for letter in order.unsent_letters],
        without_a_place=[order for order in orders if order.needs_new_time and order.cancelled_at is None],
        overdue=books.overdue(orders=[order for order in orders if order.late], now=now),
    )
