"""What is owed on an order. Nothing here writes."""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from bookings.models import Order
from bookings.money import Money, balance, kept_on_cancel
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


@dataclass(frozen=True, slots=True)
class Cancelling:
    """What a cancellation would leave with the studio and give back, in minor units."""

    kept: Money
    returned: Money


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


def cancelling(order: Order, money: Account, *, now: datetime) -> Cancelling:
    """What becomes of the money of an order, of which `money` is the account, if it is cancelled at `now`."""
    deposit_paid = max(0, min(money.paid, money.deposit))
    starts_at = order.sitting.bench_job.starts_at
    kept = kept_on_cancel(order.terms.cancellation_rule(), deposit_paid, starts_at, now)
    return Cancelling(kept=kept, returned=max(0, money.paid - kept))
