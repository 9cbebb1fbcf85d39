"""Invented clients book until the bench can make nothing more."""

from collections import deque
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import cycle
from uuid import UUID, uuid5

from bookings.checkout.services import booking
from bookings.diary.models import SittingDay
from bookings.orders.models import ConsentPurpose, Order
from bookings.orders.selectors.account import account
from bookings.orders.wishes import Wish
from bookings.payments.models import Method
from bookings.payments.services import ledger as payments
from bookings.practice import sitters as invented
from bookings.pricing.models import Extra
from plates.bench.models import PlateSize
from plates.errors import BenchFull
from plates.schedule.selectors.openings import first_start

NAMESPACE = UUID("0a3c5be5-2d0c-49d7-8f4a-2b8c64f1e9d3")
FIRST_NAMES = ("Ottilie", "Bartolo", "Wren", "Ismay", "Caspian", "Delphine", "Ambrose", "Tamsin")
LAST_NAMES = ("Marrow", "Finch-Reyes", "Achterberg", "Tolliver", "Quillan", "Sandrigal", "Ovenden")
WISHES = (
    ("Quarter",),
    ("Half", "Quarter"),
    ("Sixth", "Sixth"),
    ("Quarter", "Quarter", "Quarter"),
    ("Whole",),
)


@dataclass(frozen=True, slots=True)
class Sold:
    """What was sold, and the sentence that refused the first one too many."""

    orders: list[Order]
    refusal: str


def sell_out(day: SittingDay, now: datetime) -> Sold:
    """Take the first time that each client in turn can have, until not even one small plate fits."""
    orders: list[Order] = []
    people, waiting = _people(), deque((names, day.bench_day.opens_at) for names in WISHES)
    while waiting:
        names, not_before = waiting.popleft()
        sizes = [PlateSize.objects.get(name=name) for name in names]
        starts_at = first_start(day=day.bench_day, sizes=sizes, not_before=not_before, now=now)
        if starts_at is not None:
            orders.append(_book(day, starts_at, sizes, next(people), now))
            # The day only gets fuller: what was refused to such a wish is not asked for again.
            waiting.append((names, starts_at))
    return Sold(orders=orders, refusal=_refusal(day, now))


def _book(day: SittingDay, starts_at: datetime, sizes: list[PlateSize], name: str, now: datetime) -> Order:
    order = invented.place(
        key=uuid5(NAMESPACE, f"{name} {starts_at.isoformat()}"),
        name=name,
        day=day,
        starts_at=starts_at,
        wish=Wish(sizes=sizes, extras={Extra.objects.get(name="Scan of a plate"): len(sizes)}),
        consents=dict.fromkeys(ConsentPurpose, True),
        held_at=now,
        placed_at=now + timedelta(minutes=4),
    )
    payments.record(
        order_id=order.pk,
        amount=account(order).deposit,
        method=Method.TRANSFER,
        reference=f"deposit {order.reference}",
        now=now + timedelta(hours=20),
    )
    return order


def _refusal(day: SittingDay, now: datetime) -> str:
    """Ask for one plate at noon on the full day, and keep what the bench answers."""
    noon = day.bench_day.opens_at + timedelta(hours=2)
    try:
        booking.hold_sitting(
            submission_key=uuid5(NAMESPACE, "one too many"),
            day_id=day.pk,
            starts_at=noon,
            wish=Wish(sizes=[PlateSize.objects.get(name="Quarter")]),
            now=now,
        )
    except BenchFull as full:
        return full.sentence(day.venue.tz)
    raise RuntimeError("The full day took another sitting.")


def _people() -> Iterator[str]:
    return (f"{first} {last}" for last in cycle(LAST_NAMES) for first in FIRST_NAMES)
