"""Orders from hold to promise, what is paid for them, and vouchers."""

from collections.abc import Mapping, Sequence
from datetime import datetime, time
from typing import Any
from uuid import UUID, uuid4

from bookings.checkout.services import booking
from bookings.diary import services as calendar
from bookings.diary.models import SittingDay
from bookings.orders.models import ConsentPurpose, Order
from bookings.orders.selectors.account import account
from bookings.orders.services import placing
from bookings.orders.wishes import Wish
from bookings.payments.models import Method
from bookings.payments.services import ledger as payments
from bookings.pricing.models import Extra
from bookings.vouchers.models import Voucher
from bookings.vouchers.services import selling as vouchers
from tests.builders.days import NOW
from tests.builders.prices import a_size
from tests.builders.studio import a_studio


def a_held_order(
    day: SittingDay,
    *,
    at: time | datetime = time(10),
    sizes: Sequence[str] = ("quarter",),
    extras: Mapping[Extra, int] | None = None,
    sitters: int = 1,
    code: str = "",
    now: datetime = NOW,
    submission_key: UUID | None = None,
) -> Order:
    """A held place without a name. `at` is a time on the venue's clock, or an instant."""
    starts_at = at if isinstance(at, datetime) else calendar.instant(day.bench_day.on, at, day.venue.tz)
    return booking.hold_sitting(
        submission_key=submission_key or uuid4(),
        day_id=day.pk,
        starts_at=starts_at,
        wish=Wish(sizes=[a_size(name) for name in sizes], extras=extras or {}, sitters=sitters, code=code),
        now=now,
    )


def a_placed_order(
    day: SittingDay,
    *,
    at: time | datetime = time(10),
    sizes: Sequence[str] = ("quarter",),
    extras: Mapping[Extra, int] | None = None,
    sitters: int = 1,
    code: str = "",
    name: str = "Ines Madrugada",
    email: str = "ines@example.org",
    phone: str = "",
    consents: Mapping[ConsentPurpose, bool] | None = None,
    now: datetime = NOW,
) -> Order:
    """An order with a name, its place held until the deposit is due."""
    order = a_held_order(day, at=at, sizes=sizes, extras=extras, sitters=sitters, code=code, now=now)
    details = placing.Details(name=name, email=email, phone=phone, consents=consents or {})
    return booking.place_order(order_id=order.pk, details=details, now=now)


def a_paid_order(day: SittingDay, *, amount: int | None = None, now: datetime = NOW, **asked: Any) -> Order:
    """A confirmed order: its deposit, or `amount` in cents, is in the ledger; the rest as in `a_placed_order`."""
    order = a_placed_order(day, now=now, **asked)
    if amount := account(order).deposit_owed if amount is None else amount:
        pay(order, amount, now=now)
    return Order.objects.get(pk=order.pk)


def pay(order: Order, amount: int, *, now: datetime = NOW, reference: str | None = None) -> None:
    payments.record(
        order_id=order.pk,
        amount=amount,
        method=Method.CASH,
        reference=reference or f"till {uuid4()}",
        now=now,
    )


def a_voucher(amount: int = 10000, *, paid: bool = True, now: datetime = NOW, **gift: Any) -> Voucher:
    """A voucher of so many cents, asked for by Abel Nortada for Ines, and paid for unless it is not to be."""
    a_studio()
    words = {"buyer_name": "Abel Nortada", "buyer_email": "abel@example.org", "for_name": "Ines"} | gift
    asked = vouchers.ask(
        submission_key=uuid4(), gift=vouchers.Gift(amount=amount, **words), now=now, at_desk=True
    )
    if paid:
        vouchers.record_money(
            voucher_id=asked.pk, amount=amount, method=Method.CASH, reference=f"till {uuid4()}", now=now
        )
    return asked
