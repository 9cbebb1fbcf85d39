"""Small worlds for tests, built through the real services. Plain functions; every time is an argument.

Everything is invented: Gannet Lane Plate Rooms in Saltmarrow, euro, one 23 % tax class, addresses at
example.org. Asking twice for the studio, a size or the terms gives the same row, so that builders can be
combined freely.
"""

from collections.abc import Mapping, Sequence
from datetime import UTC, date, datetime, time
from typing import Any
from uuid import UUID, uuid4

from django.contrib.auth.models import User

from bookings import kept_wishes
from bookings.models import (
    ConsentPurpose,
    Discount,
    Extra,
    ExtraKind,
    LinePlace,
    Method,
    Order,
    SittingDay,
    SizePrice,
    Studio,
    Surcharge,
    SurchargeKind,
    TaxClass,
    Terms,
    Venue,
    Voucher,
    Waiting,
)
from bookings.selectors.orders import account
from bookings.services import booking, calendar, line, payments, vouchers
from bookings.wishes import Wish
from plates.models import Bench, Finishing, Plate, PlateSize, PlateSlot, Stage
from plates.services import ledger

SATURDAY = date(2026, 11, 28)
NOW = datetime(2026, 11, 20, 9, 0, tzinfo=UTC)

# Sides in millimetres (inches x 25.4), wash places, price in cents, tax included.
SIZES = {
    "sixth": ("69.85", "82.55", 1, 6500),
    "quarter": ("82.55", "107.95", 1, 8500),
    "half": ("107.95", "139.7", 1, 12500),
    "whole": ("165.1", "215.9", 2, 19500),
}
STAGES = [stage for stage in Stage if stage != Stage.SPOILT]


def a_studio(**changes: object) -> Studio:
    """The one studio; changes are saved on it."""
    facts: dict[str, object] = {
        "name": "Gannet Lane Plate Rooms",
        "address": "4 Gannet Lane\nSaltmarrow",
        "country": "PT",
        "email": "rooms@example.org",
        "phone": "+351 555 010 099",
        "tax_number": "PT999999990",
        "how_to_pay": "Bring the deposit to Gannet Lane, or send it to the account named on the door.",
    }
    return Studio.objects.update_or_create(pk=1, defaults=changes, create_defaults=facts | changes)[0]


def a_tax_class() -> TaxClass:
    return TaxClass.objects.get_or_create(name="Standard", defaults={"category": "S", "rate_bp": 2300})[0]


def some_terms(**changes: object) -> Terms:
    """Half the price as deposit, free to cancel until 48 hours before."""
    facts: dict[str, object] = {
        "holds_from": date(2026, 1, 1),
        "deposit_share_bp": 5000,
        "text": "One plate is made again without charge when the fault is the studio's.",
    }
    return Terms.objects.get_or_create(version="2026-1", defaults=facts | changes)[0]


def a_size(name: str = "quarter") -> PlateSize:
    """A plate size with its price."""
    width, height, wash_places, amount = SIZES[name]
    size, _ = PlateSize.objects.get_or_create(
        name=name, defaults={"width_mm": width, "height_mm": height, "wash_places": wash_places}
    )
    SizePrice.objects.get_or_create(
        size=size, holds_from=date(2026, 1, 1), defaults={"amount": amount, "tax_class": a_tax_class()}
    )
    size.refresh_from_db()
    return size


def an_extra(name: str = "Velvet case", kind: str = ExtraKind.CASE, amount: int = 3000) -> Extra:
    facts = {"kind": kind, "amount": amount, "tax_class": a_tax_class()}
    return Extra.objects.get_or_create(name=name, defaults=facts)[0]


def a_surcharge(kind: str = SurchargeKind.SITTER, **changes: object) -> Surcharge:
    """15.00 for each further sitter, at every venue."""
    facts: dict[str, object] = {"amount": 1500, "tax_class": a_tax_class(), "holds_from": date(2026, 1, 1)}
    return Surcharge.objects.create(kind=kind, **(facts | changes))


def a_discount(code: str = "HARBOUR10", **changes: object) -> Discount:
    """A tenth off, since January and without end."""
    facts: dict[str, object] = {"text": "Neighbours", "share_bp": 1000, "holds_from": date(2026, 1, 1)}
    return Discount.objects.create(code=code, **(facts | changes))


def a_bench(**changes: object) -> Bench:
    """A bench that sells what it can make, without regard to waiting: chance is looked at where it is the subject."""
    facts: dict[str, object] = {"name": "Home bench", "wait_chance": None}
    return Bench.objects.create(**(facts | changes))


def a_venue(**changes: object) -> Venue:
    facts: dict[str, object] = {
        "name": "Gannet Lane",
        "address": "4 Gannet Lane\nSaltmarrow",
        "zone": "Europe/Lisbon",
        "finding_it": "The green door beside the net loft. Ring twice.",
    }
    return Venue.objects.create(**(facts | changes))


def a_day(
    *,
    on: date = SATURDAY,
    zone: str = "Europe/Lisbon",
    opens: time = time(10),
    closes: time = time(18),
    racks_empty_by: time = time(19, 15),
    start_every: int = 15,
    published: bool = True,
    bench: Bench | None = None,
    venue: Venue | None = None,
) -> SittingDay:
    """A published day on the clock of its venue, with a studio and terms, so that it can be booked."""
    a_studio()
    some_terms()
    hours = calendar.Hours(opens=opens, closes=closes, racks_empty_by=racks_empty_by, start_every=start_every)
    return calendar.open_day(
        venue=venue or _venue_in(zone),
        bench=bench or Bench.objects.filter(name="Home bench").first() or a_bench(),
        on=on,
        hours=hours,
        published=published,
    )


def _venue_in(zone: str) -> Venue:
    name = "Gannet Lane" if zone == "Europe/Lisbon" else f"Travelling tent, {zone}"
    return Venue.objects.filter(name=name).first() or a_venue(name=name, zone=zone)


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
    details = booking.Details(name=name, email=email, phone=phone, consents=consents or {})
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


def made_plates(order: Order, *, stage: Stage = Stage.READY, now: datetime = NOW) -> list[Plate]:
    """Every promised plate of the order, poured and brought as far as `stage`."""
    slots = PlateSlot.objects.filter(job=order.sitting.bench_job_id)
    return [made_plate(slot, stage, now) for slot in slots]


def made_plate(slot: PlateSlot, stage: Stage, now: datetime) -> Plate:
    plate = ledger.pour(slot_id=slot.pk, operator=None, now=now)
    for following in STAGES[1 : STAGES.index(stage) + 1]:
        plate = ledger.record_stage(plate_id=plate.pk, stage=following, operator=None, now=now)
    return plate


def a_line_place(
    day: SittingDay, *, name: str = "Ines", size: str = "quarter", now: datetime | None = None
) -> LinePlace:
    """Somebody in the walk-up line of the day, which keeps one from now on; joined when the day opens, or `now`."""
    line.keep(day_id=day.pk, keeps=True)
    return line.join(
        day_id=day.pk,
        key=uuid4(),
        name=name,
        size=a_size(size),
        now=now or day.bench_day.opens_at,
        at_desk=True,
    )


def a_waiting(
    day: SittingDay,
    *,
    sizes: Sequence[str] = ("quarter",),
    earliest: time = time(10),
    latest: time = time(18),
    name: str = "Ottilie Marrow",
    email: str = "ottilie@example.org",
    now: datetime = NOW,
) -> Waiting:
    """Somebody on the waiting list of the day; the row alone, whether or not a place is free."""
    wish = Wish(sizes=[a_size(each) for each in sizes])
    start, end = (calendar.instant(day.bench_day.on, at, day.venue.tz) for at in (earliest, latest))
    return Waiting.objects.create(
        key=uuid4(), day=day, name=name, email=email, wish=kept_wishes.written(wish),
        earliest=start, latest=end, asked_at=now,
    )  # fmt: skip


def an_operator(username: str = "operator", password: str = "a-long-practice-secret") -> User:
    """Someone who may sign in to the studio's pages."""
    return User.objects.create_user(username=username, password=password, is_staff=True)


def usual_finishing(**changes: object) -> Finishing:
    """How a new studio finishes plates, but for the changes; makes the row where a browser test emptied all."""
    return Finishing.objects.update_or_create(pk=1, defaults=changes)[0]


def finishing(**changes: object) -> Finishing:
    """How the studio finishes plates: an hour of drying and a day of cure to the minute, unless changed."""
    facts = dict.fromkeys(("dry_least", "dry_usual", "dry_most"), 60)
    facts |= dict.fromkeys(("cure_least", "cure_usual", "cure_most"), 1440)
    return usual_finishing(**facts | changes)
