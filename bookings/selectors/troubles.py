"""What needs the owner's eye. Nothing here writes."""

from dataclasses import dataclass

from django.db.models import Exists, OuterRef, Prefetch, Q

from bookings.models import CardNotice, Notice, Order
from bookings.selectors.cards import to_be_looked_at


@dataclass(frozen=True, slots=True)
class Troubles:
    """Letters that could not be sent, paid orders whose place was gone when the money came, and what the card service
    told that does not add up.
    """

    unsent: list[Notice]
    without_a_place: list[Order]
    cards: list[CardNotice]

    def __bool__(self) -> bool:
        return bool(self.unsent or self.without_a_place or self.cards)


def open_troubles() -> Troubles:
    """Two queries where there is no trouble, three where there is."""
    letters = Notice.objects.filter(given_up_at__isnull=False, sent_at__isnull=True)
    without_a_place = Q(needs_new_time=True, cancelled_at__isnull=True)
    unsent = Exists(letters.filter(order=OuterRef("pk")))
    found = Order.objects.filter(without_a_place | unsent).order_by("pk")
    orders = list(found.prefetch_related(Prefetch("notices", letters, to_attr="unsent_letters")))
    return Troubles(
        unsent=[letter for order in orders for letter in order.unsent_letters],
        without_a_place=[order for order in orders if order.needs_new_time and order.cancelled_at is None],
        cards=list(to_be_looked_at()),
    )
