"""What needs the owner's eye. Nothing here writes."""

from dataclasses import dataclass

from django.db.models import Exists, F, OuterRef, Prefetch, Q, QuerySet, Subquery, Sum
from django.db.models.functions import Coalesce

from bookings.models import Notice, Order, OrderLine, Payment
from bookings.money import Money
from bookings.selectors.orders import account


@dataclass(frozen=True, slots=True)
class Troubles:
    """Letters that could not be sent, paid orders whose place was gone, and money that is to be given back."""

    unsent: list[Notice]
    without_a_place: list[Order]
    to_give_back: list[tuple[Order, Money]]

    def __bool__(self) -> bool:
        return bool(self.unsent or self.without_a_place or self.to_give_back)


def open_troubles() -> Troubles:
    """Two queries where there is no trouble, a few more where there is."""
    letters = Notice.objects.filter(given_up_at__isnull=False, sent_at__isnull=True)
    without_a_place = Q(needs_new_time=True, cancelled_at__isnull=True)
    unsent = Exists(letters.filter(order=OuterRef("pk")))
    found = Order.objects.filter(without_a_place | unsent).order_by("pk")
    orders = list(found.prefetch_related(Prefetch("notices", letters, to_attr="unsent_letters")))
    return Troubles(
        unsent=[letter for order in orders for letter in order.unsent_letters],
        without_a_place=[order for order in orders if order.needs_new_time and order.cancelled_at is None],
        to_give_back=to_give_back(),
    )


def to_give_back() -> list[tuple[Order, Money]]:
    """The orders that were paid more than they cost, with what is too much; oldest first."""
    orders = _paid_too_much().select_related("terms", "sitting__bench_job")
    found = orders.prefetch_related("lines", "payments").order_by("pk")
    owing = [(order, account(order).overpaid) for order in found]
    return [(order, overpaid) for order, overpaid in owing if overpaid]


def _paid_too_much() -> QuerySet[Order]:
    """Found by the database; where what is kept was never fixed, the rule still has to be asked."""
    of_order = {"order": OuterRef("pk")}
    paid = Payment.objects.filter(**of_order).values("order").annotate(sum=Sum("amount"))
    lines = OrderLine.objects.filter(**of_order).values("order")
    costs = lines.annotate(sum=Sum(F("quantity") * F("unit_amount")))
    orders = Order.objects.annotate(paid=Subquery(paid.values("sum")))
    cancelled = Q(cancelled_at__isnull=False, paid__gt=Coalesce(F("kept"), 0))
    return orders.filter(cancelled | Q(cancelled_at__isnull=True, paid__gt=Subquery(costs.values("sum"))))
