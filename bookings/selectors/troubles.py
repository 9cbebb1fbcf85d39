"""What needs the owner's eye. Nothing here writes."""

from dataclasses import dataclass

from bookings.models import Notice, Order


@dataclass(frozen=True, slots=True)
class Troubles:
    """Letters that could not be sent, and paid orders whose place was gone when the money came."""

    unsent: list[Notice]
    without_a_place: list[Order]

    def __bool__(self) -> bool:
        return bool(self.unsent or self.without_a_place)


def open_troubles() -> Troubles:
    unsent = Notice.objects.filter(given_up_at__isnull=False, sent_at__isnull=True).select_related("order")
    waiting = Order.objects.filter(needs_new_time=True, cancelled_at__isnull=True)
    return Troubles(unsent=list(unsent), without_a_place=list(waiting))
