"""What needs the owner's eye. Nothing here writes."""

from dataclasses import dataclass

from django.db.models import Exists, OuterRef, Prefetch, Q

from bookings.models import Notice, Order


@dataclass(frozen=True, slots=True)
class Troubles:
    """Letters that could not be sent, and paid orders whose place was gone when the money came."""

    unsent: list[Notice]
    without_a_place: list[Order]

    def __bool__(self) -> bool:
        return bool(self.unsent or self.without_a_place)


def open_troubles() -> Troubles:
    """One query where there is no trouble, two where there is."""
    letters = Notice.objects.filter(given_up_at__isnull=False, sent_at__isnull=True)
    without_a_place = Q(needs_new_time=True, cancelled_at__isnull=True)
    unsent = Exists(letters.filter(order=OuterRef("pk")))
    found = Order.objects.filter(without_a_place | unsent).order_by("pk")
    orders = list(found.prefetch_related(Prefetch("notices", letters, to_attr="unsent_letters")))
    return Troubles(
        unsent=[letter for order in orders for letter in order.unsent_letters],
        without_a_place=[order for order in orders if order.needs_new_time and order.cancelled_at is None],
    )
