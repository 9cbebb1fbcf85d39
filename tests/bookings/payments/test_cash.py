"""Counting the cash box: what the ledger says, what lies there, and a difference that is only written down."""

from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from bookings.diary import clock
from bookings.errors import CashNotCounted
from bookings.payments import selectors as cash
from bookings.payments.models import CashUp, Method, Payment
from bookings.payments.selectors import Taking
from bookings.payments.services import cash as services
from bookings.payments.services import ledger as payments
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db
SECOND = timedelta(seconds=1)


@pytest.fixture
def order():
    """An order of 85.00 whose deposit of 42.50 came in by cash."""
    return builders.a_paid_order(builders.a_day())


@pytest.fixture
def operator():
    return builders.an_operator()


def box():
    return cash.cash_box(currency="EUR")


def counted(operator, much, *, shown=None, **more):
    return services.count(counted=much, shown=shown or box(), counted_by=operator, now=NOW, **more)


def paid(order, amount, method, *, now=NOW):
    payments.record(
        order_id=order.pk, amount=amount, method=method, reference=f"{method} {amount} {now}", now=now
    )


def test_the_box_holds_what_came_in_by_cash_in_its_currency_and_nothing_else(order):
    paid(order, 1000, Method.TERMINAL)
    paid(order, 2000, Method.TRANSFER)
    paid(order, -250, Method.CASH)

    assert (box().opened_with, box().came_in, box().expected(), box().last) == (0, 4000, 4000, None)
    other = cash.cash_box(currency="JPY")
    assert (other.opened_with, other.came_in, other.last) == (0, 0, None)


def test_a_count_is_kept_beside_what_should_be_there_and_the_next_begins_with_it(order, operator):
    found = counted(operator, 14100, put_in=10000, note="15 cents short, a tip jar mix-up")
    builders.pay(order, 4250)

    assert (found.opened_with, found.came_in, found.put_in, found.counted) == (0, 4250, 10000, 14100)
    assert (found.difference, found.currency, found.counted_by) == (-150, "EUR", operator)
    assert found.last_payment == Payment.objects.first()
    assert (box().opened_with, box().came_in, box().expected(-3000)) == (14100, 4250, 15350)
    assert cash.cash_box(currency="JPY").last is None


def test_a_payment_that_was_on_its_way_during_a_count_is_part_of_the_next(order, operator):
    """On PostgreSQL a payment may get its number before the count and be seen only after it."""
    counted(operator, 4250)
    late = Payment(order=order, amount=500, method=Method.CASH, reference="late", at=NOW)
    late.pk = 0  # below the last one that was counted
    late.save(force_insert=True)

    assert box().came_in == 500


def test_a_box_that_changed_while_it_was_counted_is_looked_at_first(order, operator):
    shown = box()
    builders.pay(order, 4250)
    with pytest.raises(CashNotCounted, match=r"^Cash came in or went out meanwhile\."):
        counted(operator, 4250, shown=shown)
    counted(operator, 8500)

    with pytest.raises(CashNotCounted, match=r"^The cash was counted meanwhile\."):
        counted(operator, 4250, shown=shown)

    assert CashUp.objects.count() == 1


def test_the_takings_of_a_day_are_told_by_method(order):
    paid(order, 3000, Method.TERMINAL)
    paid(order, -1000, Method.TERMINAL)

    found = cash.takings(on=date(2026, 11, 20), zone=ZoneInfo("Europe/Lisbon"), currency="EUR")

    assert found == [Taking(Method.CASH, 4250, 0), Taking(Method.TERMINAL, 3000, 1000)]
    assert cash.together(found) == 6250


def test_a_day_begins_and_ends_by_the_clock_of_its_zone(order):
    """Tz database, Atlantic/Azores: UTC-1 in winter, so its 21 November is from 01:00 UTC to 01:00 UTC."""
    azores = ZoneInfo("Atlantic/Azores")
    begins = datetime(2026, 11, 21, 0, 0, tzinfo=azores)
    for amount, at in enumerate(
        [begins - SECOND, begins, begins + timedelta(days=1) - SECOND, begins + timedelta(days=1)], start=1
    ):
        paid(order, amount, Method.TRANSFER, now=at)

    found = cash.takings(on=date(2026, 11, 21), zone=azores, currency="EUR")

    assert found == [Taking(Method.TRANSFER, 5, 0)]


def test_the_clock_of_the_studio_is_that_of_the_first_venue():
    builders.a_venue(zone="Atlantic/Azores")
    builders.a_venue(name="Travelling tent", zone="Europe/Lisbon")

    assert clock.studio_zone() == ZoneInfo("Atlantic/Azores")
