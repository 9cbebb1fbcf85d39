"""The practice studio: invented, complete, and safe to break. Loading it twice changes nothing."""

from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from uuid import UUID, uuid5

from django.contrib.auth.models import User
from django.core.management import call_command
from django.db import transaction

from bookings.diary.models import SittingDay, Venue
from bookings.diary.services import Hours, open_day
from bookings.orders.models import ConsentPurpose, Order
from bookings.orders.selectors.account import account
from bookings.orders.wishes import Wish
from bookings.payments.models import Method
from bookings.payments.services import ledger as payments
from bookings.practice import sitters as invented
from bookings.studio.models import Studio
from bookings.vouchers.services import redeeming
from bookings.vouchers.services import selling as vouchers
from bookings.vouchers.services.selling import Gift
from plates.bench.models import Bench, PlateSize
from plates.store import practice as practice_store

PHOTOGRAPHER = "photographer"
PASSWORD = "silver-bath-practice"
NAMESPACE = UUID("6f0e4a52-3f0c-4f43-9a55-0d1f8f1e7a10")
INDOORS = Hours(opens=time(10), closes=time(18), racks_empty_by=time(19, 15))
AT_THE_FAIR = Hours(opens=time(11), closes=time(17), racks_empty_by=time(18, 30))
LEAST_SUN = Decimal(10)  # degrees


@dataclass(frozen=True, slots=True)
class InventedSitter:
    name: str
    at: time
    sizes: tuple[str, ...]
    pays: bool
    people: int = 1
    code: str = ""


SITTERS = (
    InventedSitter("Ottilie Marrow", time(10, 30), ("Quarter",), pays=True),
    InventedSitter("Bartolo Finch-Reyes", time(11, 30), ("Half", "Quarter"), pays=True),
    InventedSitter("Wren Achterberg", time(14, 0), ("Sixth", "Sixth"), pays=True, people=3),
    InventedSitter("Ismay Tolliver", time(15, 30), ("Whole",), pays=False, code="HARBOUR10"),
)


@transaction.atomic
def load(*, now: datetime) -> bool:
    """Load the practice studio unless there is a studio already; return whether it was loaded."""
    if Studio.objects.exists():
        return False
    call_command("loaddata", "sizes", "demo", verbosity=0)
    User.objects.create_superuser(PHOTOGRAPHER, "photographer@example.org", PASSWORD)
    days = _open_days(now)
    orders = [_book(sitter, days[0], now) for sitter in SITTERS]
    _give_a_voucher(orders[-1], now)
    practice_store.lay_out(bench=days[0].bench_day.bench, now=now)
    return True


def _give_a_voucher(order: Order, now: datetime) -> None:
    """A voucher that is paid for, and has paid a part of the one order whose deposit is not here yet."""
    gift = Gift(
        amount=12_000,
        buyer_name="Cosmo Vantongeren",
        buyer_email="cosmo.vantongeren@example.org",
        for_name="Ismay",
        message="For your tenth winter in Saltmarrow.",
    )
    voucher = vouchers.ask(submission_key=uuid5(NAMESPACE, gift.buyer_name), gift=gift, now=now, at_desk=True)
    vouchers.record_money(
        voucher_id=voucher.pk, amount=gift.amount, method=Method.CASH, reference="demo-voucher", now=now
    )
    redeeming.redeem(
        order_id=order.pk, code=voucher.code, key=uuid5(NAMESPACE, "its use"), amount=4_000, now=now
    )


def _open_days(now: datetime) -> list[SittingDay]:
    """The next two days in the Plate Rooms and, a week on, one by daylight at the fair."""
    rooms, fair = Venue.objects.order_by("pk")
    dark_room, tent = Bench.objects.order_by("pk")
    today: date = now.astimezone(rooms.tz).date()
    return [
        open_day(venue=rooms, bench=dark_room, on=today + timedelta(days=1), hours=INDOORS),
        open_day(venue=rooms, bench=dark_room, on=today + timedelta(days=3), hours=INDOORS),
        open_day(
            venue=fair,
            bench=tent,
            on=today + timedelta(days=8),
            hours=AT_THE_FAIR,
            sun_height=LEAST_SUN,
        ),
    ]


def _book(sitter: InventedSitter, day: SittingDay, now: datetime) -> Order:
    starts_at = datetime.combine(day.bench_day.on, sitter.at, tzinfo=day.venue.tz)
    order = invented.place(
        key=uuid5(NAMESPACE, sitter.name),
        name=sitter.name,
        day=day,
        starts_at=starts_at,
        wish=Wish(
            sizes=[PlateSize.objects.get(name=name) for name in sitter.sizes],
            sitters=sitter.people,
            code=sitter.code,
        ),
        consents={ConsentPurpose.SHOW: sitter.pays, ConsentPurpose.NEWS: False},
        held_at=now,
        placed_at=now,
    )
    if sitter.pays:
        deposit = account(order).deposit
        payments.record(
            order_id=order.pk,
            amount=deposit,
            method=Method.CASH,
            reference=f"demo-{order.reference}",
            now=now,
        )
    return order
