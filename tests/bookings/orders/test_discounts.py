"""Codes: which are taken, which refused with what sentence, and how often."""

from datetime import date, timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from bookings.changes.services import sittings
from bookings.checkout.services import booking
from bookings.errors import DiscountRefused
from bookings.orders.models import LineKind, Order
from bookings.orders.selectors.account import account
from bookings.orders.selectors.discounts import uses
from bookings.orders.services import placing
from plates.bench.models import BenchJob
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

CODE = "HARBOUR10"
USED_UP = r"^The code HARBOUR10 has been used as often as it may be\. Choose again without it\.$"
DETAILS = placing.Details(name="Ines Madrugada", email="ines@example.org", phone="", consents={})
LATER = NOW + timedelta(minutes=21)  # a hold lasts twenty


@pytest.fixture
def day():
    return builders.a_day(bench=builders.a_bench(operators=3, tank_places=3, sitters_at_once=3))


def place(order, now=NOW):
    return booking.place_order(order_id=order.pk, details=DETAILS, now=now)


def test_a_discount_stands_on_the_order_as_a_line_of_its_own(day):
    discount = builders.a_discount()

    order = builders.a_held_order(day, sitters=3, code=CODE)

    line = order.lines.get(kind=LineKind.DISCOUNT)
    assert (line.discount, line.text, line.quantity, line.unit_amount) == (discount, "Neighbours", -1, 850)
    assert (order.sitters, account(order).gross) == (3, 7650)


@pytest.mark.parametrize(
    ("code", "sentence"),
    [
        ("NOSUCH", r"^There is no discount with the code NOSUCH\. Check it, or leave it out\.$"),
        (
            "SOON",
            r"^The code SOON can be used from Saturday 21 November 2026 on\. Leave it out until then\.$",
        ),
        ("GONE", r"^The code GONE could be used until Thursday 19 November 2026\. Leave it out\.$"),
    ],
    ids=["unknown", "not yet", "no longer"],
)
def test_a_code_that_does_not_hold_is_refused_and_nothing_is_held(day, code, sentence):
    builders.a_discount("SOON", holds_from=date(2026, 11, 21))
    builders.a_discount("GONE", holds_until=date(2026, 11, 19))

    with pytest.raises(DiscountRefused, match=sentence):
        builders.a_held_order(day, code=code)

    assert not Order.objects.exists()
    assert not BenchJob.objects.exists()


def test_a_code_holds_on_its_first_day_and_on_its_last(day):
    builders.a_discount(holds_from=NOW.date(), holds_until=NOW.date())

    assert account(builders.a_held_order(day, code=CODE)).gross == 7650


def test_the_last_use_goes_to_one_order_and_the_next_is_refused(day):
    builders.a_discount(most_uses=2)
    builders.a_placed_order(day, code=CODE)
    builders.a_held_order(day, code=CODE)

    with pytest.raises(DiscountRefused, match=USED_UP):
        builders.a_held_order(day, code=CODE)

    builders.a_held_order(day)


def test_a_hold_that_lapsed_gives_its_use_back_and_a_placed_order_only_when_it_is_cancelled(day):
    discount = builders.a_discount()
    builders.a_held_order(day, code=CODE)
    placed = builders.a_placed_order(day, code=CODE)
    long_after = NOW + timedelta(days=4)  # past the time for the deposit

    counted = [uses(discount=discount, now=now) for now in (NOW, LATER, long_after)]
    sittings.cancel(order_id=placed.pk, now=long_after)

    assert counted == [2, 1, 1]
    assert uses(discount=discount, now=long_after) == 0


def test_who_takes_another_time_does_not_stand_in_the_own_way(day):
    discount = builders.a_discount(most_uses=1)
    first = builders.a_held_order(day, code=CODE)

    assert uses(discount=discount, now=NOW, excluding_order=first.pk) == 0
    assert uses(discount=discount, now=NOW) == 1


def test_an_order_with_two_discount_lines_is_one_use(day):
    discount = builders.a_discount()
    order = builders.a_held_order(day, code=CODE)
    line = order.lines.get(kind=LineKind.DISCOUNT)
    line.pk, line.position = None, 9
    line.save()

    assert uses(discount=discount, now=NOW) == 1


def test_a_name_comes_too_late_when_others_used_the_discount_up_after_the_hold_had_lapsed(day):
    builders.a_discount(most_uses=1)
    late = builders.a_held_order(day, code=CODE)
    builders.a_placed_order(day, code=CODE, now=LATER)

    with pytest.raises(DiscountRefused, match=USED_UP):
        place(late, now=LATER)

    assert Order.objects.get(pk=late.pk).placed_at is None


def test_a_name_that_comes_in_time_keeps_the_last_use(day):
    builders.a_discount(most_uses=1)

    assert place(builders.a_held_order(day, code=CODE)).placed_at == NOW


def test_an_order_that_costs_nothing_asks_for_no_deposit_and_is_promised_at_once(day):
    builders.a_discount("GIFT", share_bp=10000)

    order = builders.a_placed_order(day, code="GIFT", sitters=2, extras={builders.an_extra(): 1})

    money = account(order)
    assert (money.gross, money.deposit, money.owed, money.settled) == (0, 0, 0, True)
    assert BenchJob.objects.get(pk=order.sitting.bench_job_id).confirmed_at == NOW
    assert [notice.kind for notice in order.notices.all()] == ["confirmed"]


@pytest.mark.skipif(connection.vendor == "sqlite", reason="there every writing transaction locks all rows")
def test_the_row_of_a_discount_is_locked_while_its_uses_are_counted(day):
    builders.a_discount(most_uses=1)

    with CaptureQueriesContext(connection) as asked:
        builders.a_held_order(day, code=CODE)

    asked_of_discounts = [query["sql"] for query in asked if 'FROM "bookings_discount"' in query["sql"]]
    assert asked_of_discounts[0].endswith("FOR UPDATE")
