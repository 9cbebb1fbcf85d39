"""What is owed on an order. Nothing here writes."""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from django.db.models import Sum

from bookings.models import Order, Payment
from bookings.money import Money, balance
from bookings.selectors.prices import quote_of


@dataclass(frozen=True, slots=True)
class Account:
    """The money side of one order, in minor units of its currency."""

    currency: str
    gross: Money
    deposit: Money
    paid: Money

    @property
    def owed(self) -> Money:
        return balance(self.gross, [self.paid])

    @property
    def deposit_owed(self) -> Money:
        return max(0, self.deposit - self.paid)

    @property
    def overpaid(self) -> Money:
        return max(0, -self.owed)

    @property
    def settled(self) -> bool:
        return self.owed <= 0


class Standing(StrEnum):
    """How sure a sitting is."""

    HELD = "held"  # kept for a while, until the deposit is there
    PROMISED = "promised"
    LAPSED = "lapsed"  # kept too long without a deposit: the place may be someone else's now
    NEW_TIME = "new_time"  # paid, but its place was gone
    CANCELLED = "cancelled"


def standing(order: Order, *, now: datetime) -> Standing:
    """How sure the sitting of an order is at `now`."""
    job = order.sitting.bench_job
    if order.cancelled_at is not None or job.released_at is not None:
        return Standing.CANCELLED
    if job.confirmed_at is not None:
        return Standing.PROMISED
    if order.needs_new_time:
        return Standing.NEW_TIME
    return Standing.HELD if job.counts(now) else Standing.LAPSED


def account(order: Order) -> Account:
    """What an order costs, what was paid and what is owed, worked out anew from lines and ledger."""
    paid = sum(payment.amount for payment in order.payments.all())
    quoted = quote_of(order)
    return Account(currency=order.currency, gross=quoted.gross, deposit=quoted.deposit_now, paid=paid)


def paid_by_order(order_ids: list[int]) -> dict[int, Money]:
    """The sum of each order's payments, in one query."""
    sums = Payment.objects.filter(order_id__in=order_ids).values("order_id").annotate(paid=Sum("amount"))
    return {row["order_id"]: row["paid"] for row in sums}
