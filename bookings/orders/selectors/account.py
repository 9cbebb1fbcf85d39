"""What is owed on an order."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from bookings.money import Money, balance, free_until, price_of_move, retained_on_cancel
from bookings.orders.models import CancelCause, LineKind, Order, OrderLine
from bookings.pricing.models import Terms


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
    """What a cancellation for that cause would leave with the studio and give back, in minor units."""

    cause: CancelCause
    kept: Money
    returned: Money


@dataclass(frozen=True, slots=True)
class Moving:
    """What a change of time asked for by the client costs now, in minor units, and until when it is free (UTC)."""

    price: Money
    free_until: datetime


class OrderStatus(StrEnum):
    """How sure a sitting is."""

    HELD = "held"  # kept for a while, until the deposit is there
    PROMISED = "promised"
    LAPSED = "lapsed"  # kept too long without a deposit: the place may be someone else's now
    NEW_TIME = "new_time"  # paid, but its place was gone
    CANCELLED = "cancelled"


def order_status(order: Order, *, now: datetime) -> OrderStatus:
    """How sure the sitting of an order is at `now`."""
    job = order.sitting.bench_job
    if order.cancelled_at is not None or job.released_at is not None:
        return OrderStatus.CANCELLED
    if job.confirmed_at is not None:
        return OrderStatus.PROMISED
    if order.needs_new_time:
        return OrderStatus.NEW_TIME
    return OrderStatus.HELD if job.counts(now) else OrderStatus.LAPSED


def account(order: Order) -> Account:
    """What an order costs, what was paid and what is owed, worked out anew from lines and ledger.

    A cancelled order costs what is kept of it, and asks for no deposit.
    """
    paid = sum(payment.amount for payment in order.payments.all())
    if order.cancelled_at is not None:
        kept = _retained_by_rule(order, paid, order.cancelled_at) if order.kept is None else order.kept
        return Account(currency=order.currency, gross=kept, deposit=0, paid=paid)
    lines = list(order.lines.all())
    gross = sum(line.as_priced().gross for line in lines)
    return Account(currency=order.currency, gross=gross, deposit=_deposit(order.terms, lines), paid=paid)


def cancelling(order: Order, *, cause: CancelCause, now: datetime) -> Cancelling:
    """What becomes of the money of an order if it is cancelled at `now`; nothing is kept unless the client cancels."""
    paid = sum(payment.amount for payment in order.payments.all())
    kept = _retained_by_rule(order, paid, now) if cause == CancelCause.CLIENT else 0
    return Cancelling(cause=cause, kept=kept, returned=max(0, paid - kept))


def moving(order: Order, *, now: datetime) -> Moving:
    """What it costs a client to change the time of an order at `now`, and until when that is free.

    Only a promised time can be given up too late: one that waits for its deposit, or was lost, is changed freely.
    """
    job = order.sitting.bench_job
    until = free_until(order.terms.free_until_hours, job.starts_at)
    promised = job.confirmed_at is not None and not order.needs_new_time
    deposit = _deposit(order.terms, order.lines.all()) if promised else 0
    price = price_of_move(order.terms.moving_rule(), deposit, job.starts_at, now)
    return Moving(price=price, free_until=until)


def _deposit(terms: Terms, lines: Iterable[OrderLine]) -> Money:
    """The deposit that was agreed: what came to the order for a late change asks for none."""
    agreed = (line.as_priced().gross for line in lines if line.kind != LineKind.LATE_MOVE)
    return terms.deposit_rule().of(sum(agreed))


def _retained_by_rule(order: Order, paid: Money, now: datetime) -> Money:
    deposit_paid = max(0, min(paid, _deposit(order.terms, order.lines.all())))
    starts_at = order.sitting.bench_job.starts_at
    return retained_on_cancel(order.terms.cancellation_rule(), deposit_paid, starts_at, now)
