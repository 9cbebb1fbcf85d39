"""Races for places on a bench."""

from contextlib import suppress
from datetime import UTC, datetime, time, timedelta
from functools import partial
from uuid import UUID, uuid4

from bookings.checkout.services import booking
from bookings.diary.models import SittingDay
from bookings.orders.models import Order
from bookings.orders.selectors.account import account
from bookings.orders.services import placing
from bookings.payments.models import Method, Payment
from bookings.payments.services import ledger as payments
from plates.bench.models import BenchDay, BenchJob
from plates.errors import BenchFull
from plates.schedule.services import jobs as bench
from tests import builders
from tests.builders import NOW
from tests.race.layouts import (
    World,
    letters_by_kind,
    problems_of,
    sold_on,
    sold_one_after_another,
    some_days,
    three_at_once,
)
from tests.race.worker import CONTENDERS, Scene

LATE = NOW + timedelta(days=2)


def _last_places() -> World:
    """Three days with one of their places sold, and on a fourth what the engine sells when nobody hurries."""
    *days, calm = some_days(4, three_at_once())
    for day in days:
        builders.a_held_order(day)
    return {"days": [day.pk for day in days], "calm": sold_one_after_another(calm)}


def _hold(
    day_id: int, *, key: UUID | None = None, at: time | datetime = time(10), size: str = "quarter"
) -> str:
    day = SittingDay.objects.select_related("venue", "bench_day").get(pk=day_id)
    return builders.a_held_order(day, at=at, sizes=(size,), submission_key=key).reference


def _book(day_id: int) -> str:
    """Hold, put a name to it and pay the deposit, as a client in a hurry does."""
    order = Order.objects.get(reference=_hold(day_id))
    details = placing.Details(name="Ines Madrugada", email="ines@example.org", phone="", consents={})
    booking.place_order(order_id=order.pk, details=details, now=NOW)
    _pay(order.pk, account(order).deposit_owed, reference=str(uuid4()))
    return order.reference


def _pay(order_id: int, amount: int, *, reference: str, now=NOW) -> int:
    how = {"method": Method.CASH, "reference": reference, "now": now}
    return payments.record(order_id=order_id, amount=amount, **how).pk


def _days_sold(world: World, now: datetime = NOW) -> World:
    return {
        "sold": [sold_on(day, now=now) for day in world["days"]],
        "problems": [problem for day in world["days"] for problem in problems_of(day, now=now)],
        "confirmed": BenchJob.objects.filter(confirmed_at__isnull=False).count(),
        "payments": Payment.objects.count(),
        "letters": letters_by_kind(),
    }


def _crowd() -> World:
    return {"days": [builders.a_day(bench=builders.a_bench()).pk]}


def _jostle(world: World, number: int):
    """Each wants another start or another size on a bench with one pair of hands."""
    starts = [time(10, 15 * ((number + turn) % 4)) for turn in range(3)]
    size = ("quarter", "half", "whole")[number % 3]
    return [partial(_hold, world["days"][0], at=start, size=size) for start in starts]


def _lapsed() -> World:
    """Sixteen orders that were placed for one start after another, each when the hold before it had run out."""
    builders.a_studio(deposit_hours=1)
    day = builders.a_day(bench=three_at_once())
    orders = [builders.a_placed_order(day, now=NOW + timedelta(hours=2 * turn)) for turn in range(CONTENDERS)]
    return {"days": [day.pk], "orders": [order.pk for order in orders]}


def _late_money(world: World, number: int):
    return [partial(_pay, world["orders"][number], 4250, reference=f"till {number}", now=LATE)]


def _late_state(world: World) -> World:
    orders = Order.objects.filter(pk__in=world["orders"])
    return _days_sold(world, LATE) | {"without_a_place": orders.filter(needs_new_time=True).count()}


def _two_days() -> World:
    return {
        "days": [day.pk for day in some_days(2, three_at_once())],
        "keys": [str(uuid4()) for _ in range(3)],
    }


def _same_form(world: World, number: int):
    """The same form; the same key with one of two sizes; the same key with one of two days."""
    same, of_size, of_day = (UUID(key) for key in world["keys"])
    here, there = world["days"]
    return [
        partial(_hold, here, key=same),
        partial(_hold, here, key=of_size, at=time(12), size=("quarter", "half")[number % 2]),
        partial(_hold, (here, there)[number % 2], key=of_day, at=time(14)),
    ]


SQUEEZED_STARTS = 8
EACH_WANTED = 4


def _squeeze() -> World:
    """A bench with one pair of hands, and how many places gaps alone give on another day of it."""
    day, other = some_days(2, builders.a_bench())
    return {"days": [day.pk], "by_gaps": _sold_by_gaps(other.bench_day_id)}


def _sold_by_gaps(bench_day_id: int) -> int:
    """What is sold of the same starts one after another when no day is ever planned anew."""
    sold = 0
    for number in range(SQUEEZED_STARTS * EACH_WANTED):
        starts_at = BenchDay.objects.get(pk=bench_day_id).opens_at + _after(number)
        sizes = [builders.a_size("quarter")]
        held_until = NOW + timedelta(minutes=20)
        with suppress(BenchFull):
            bench.reserve(
                day_id=bench_day_id, starts_at=starts_at, sizes=sizes, held_until=held_until, now=NOW
            )
            sold += 1
    return sold


def _after(number: int) -> timedelta:
    return timedelta(minutes=15 * (number % SQUEEZED_STARTS))


def _press_in(world: World, number: int):
    """Every start is wanted by four; gaps hold fewer of them than the whole day planned anew does."""
    ten = datetime(2026, 11, 28, 10, tzinfo=UTC)
    wanted = [ten + _after(5 * number + turn) for turn in range(2)]
    return [partial(_hold, world["days"][0], at=starts_at) for starts_at in wanted]


def _refused_for_nothing(world: World) -> World:
    """Which of the starts that somebody was refused can be sold even now that the day is fuller than it was then."""
    day = SittingDay.objects.select_related("bench_day").get(pk=world["days"][0])
    wrong = []
    for number in range(SQUEEZED_STARTS):
        starts_at = day.bench_day.opens_at + _after(number)
        sold = BenchJob.objects.filter(day=day.bench_day, starts_at=starts_at).count()
        with suppress(BenchFull):
            if sold < EACH_WANTED:
                wrong.append(builders.a_held_order(day, at=starts_at).reference)
    return {"wrongly_refused": wrong}


SCENES = {
    "squeeze": Scene(_squeeze, _press_in, lambda world: _days_sold(world) | _refused_for_nothing(world)),
    "last_places": Scene(
        _last_places, lambda world, _: [partial(_hold, day) for day in world["days"]], _days_sold
    ),
    "whole_bookings": Scene(
        _last_places, lambda world, _: [partial(_book, day) for day in world["days"]], _days_sold
    ),
    "crowd": Scene(_crowd, _jostle, _days_sold),
    "late_money": Scene(_lapsed, _late_money, _late_state),
    "same_form": Scene(_two_days, _same_form, lambda world: {"orders": Order.objects.count()}),
}
