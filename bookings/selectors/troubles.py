"""What needs the owner's eye. Nothing here writes."""

from dataclasses import dataclass, field

from django.db.models import Exists, OuterRef, Prefetch, Q, Value

from bookings.models import Notice, Order


@dataclass(frozen=True, slots=True)
class Troubles:
    """Letters that could not be sent, and paid orders whose place was gone when the money came."""

    unsent: list[Notice] = field(default_factory=list)
    unsent_vouchers: list[Notice] = field(default_factory=list)
    without_a_place: list[Order] = field(default_factory=list)

    def __bool__(self) -> bool:
        return bool(self.unsent or self.unsent_vouchers or self.without_a_place)


def open_troubles() -> Troubles:
    """One query where there is no trouble, four at most where there is."""
    letters = Notice.objects.filter(given_up_at__isnull=False, sent_at__isnull=True)
    of_vouchers = letters.filter(voucher__isnull=False)
    unsent = Exists(letters.filter(order=OuterRef("pk")))
    of_orders = Order.objects.filter(Q(needs_new_time=True, cancelled_at__isnull=True) | unsent)
    kinds = [found.order_by().values_list(Value(kind)) for kind, found in enumerate((of_orders, of_vouchers))]
    if not kinds[0].union(kinds[1]):
        return Troubles()
    orders = list(
        of_orders.order_by("pk").prefetch_related(Prefetch("notices", letters, to_attr="unsent_letters"))
    )
    return Troubles(
        unsent=[letter for order in orders for letter in order.unsent_letters],
        unsent_vouchers=list(of_vouchers.select_related("voucher")),
        without_a_place=[order for order in orders if order.needs_new_time and order.cancelled_at is None],
    )
