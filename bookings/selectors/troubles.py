"""What needs the owner's eye. Nothing here writes."""

from dataclasses import dataclass, field

from django.db.models import Q

from bookings.models import CardNotice, Notice, Order
from bookings.selectors.cards import to_be_looked_at


@dataclass(frozen=True, slots=True)
class Troubles:
    """Letters that could not be sent, paid orders whose place was gone when the money came, and what the card service
    told that does not add up.
    """

    unsent: list[Notice] = field(default_factory=list)
    unsent_vouchers: list[Notice] = field(default_factory=list)
    without_a_place: list[Order] = field(default_factory=list)
    cards: list[CardNotice] = field(default_factory=list)

    def __bool__(self) -> bool:
        return bool(self.unsent or self.unsent_vouchers or self.without_a_place or self.cards)


def open_troubles() -> Troubles:
    """Two queries: an order without a place has a letter too, for both are written in one transaction."""
    waits = Q(order__needs_new_time=True, order__cancelled_at__isnull=True)
    letters = Notice.objects.filter(waits | Q(given_up_at__isnull=False, sent_at__isnull=True))
    found = list(letters.select_related("order", "voucher").order_by("order_id", "id"))
    unsent = [letter for letter in found if letter.given_up_at is not None and letter.sent_at is None]
    orders = {letter.order_id: letter.order for letter in found if letter.order is not None}
    return Troubles(
        unsent=[letter for letter in unsent if letter.voucher is None],
        unsent_vouchers=[letter for letter in unsent if letter.voucher is not None],
        without_a_place=[
            order for order in orders.values() if order.needs_new_time and order.cancelled_at is None
        ],
        cards=list(to_be_looked_at()),
    )
