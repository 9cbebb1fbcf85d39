"""A day is quoted by the prices that it will be sold at."""

from datetime import UTC, date, datetime, timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from bookings.models import SittingDay, SizePrice
from bookings.selectors import offers
from tests import builders
from tests.builders import NOW, SATURDAY

pytestmark = pytest.mark.django_db

DECEMBER = date(2026, 12, 1)


@pytest.fixture
def quarter():
    """A quarter plate at 85.00, and at 95.00 from December."""
    size = builders.a_size("quarter")
    SizePrice.objects.create(size=size, amount=9500, tax_class=builders.a_tax_class(), holds_from=DECEMBER)
    return size


@pytest.fixture
def days():
    """The last Saturday in November and the first in December."""
    return [builders.a_day(on=on) for on in (SATURDAY, SATURDAY + timedelta(days=7))]


def asked(size, now=NOW, extras=None):
    return offers.offered(sizes=[size], extras=extras or {}, now=now)


def test_each_day_is_quoted_by_its_own_prices_and_sold_at_them(quarter, days):
    offered = asked(quarter)

    held = [builders.a_held_order(day) for day in days]
    charged = [sum(line.unit_amount for line in order.lines.all()) for order in held]
    assert [day.quote.gross for day in offered.days] == [8500, 9500] == charged
    assert offered.prices_differ


def test_beside_the_days_stands_what_the_soonest_one_costs(quarter, days):
    # By then December's price holds for both days that are left.
    SittingDay.objects.filter(pk=days[0].pk).update(published=False)

    offered = asked(quarter)

    assert offered.quote.gross == 9500
    assert not offered.prices_differ


def test_without_any_day_the_order_is_quoted_by_the_prices_of_today(quarter, days):
    SittingDay.objects.update(published=False)

    offered = asked(quarter, extras={builders.an_extra(): 1})

    assert (offered.days, offered.quote.gross, offered.prices_differ) == ([], 8500 + 3000, False)


def test_a_day_on_which_a_size_is_not_for_sale_yet_is_left_out(days):
    """Honolulu is ten hours behind Greenwich (tz database): there it is still the day before the price holds."""
    builders.a_day(on=date(2026, 11, 20), zone="Pacific/Honolulu", bench=builders.a_bench(name="Far bench"))
    size = builders.a_size("half")
    SizePrice.objects.filter(size=size).update(holds_from=date(2026, 11, 21))

    offered = asked(size, now=datetime(2026, 11, 21, 2, tzinfo=UTC))

    assert [day.openings.day for day in offered.days] == days


def test_the_prices_are_looked_at_once_for_any_number_of_days(quarter, days):
    with CaptureQueriesContext(connection) as asked_for:
        asked(quarter)

    assert sum('FROM "bookings_sizeprice"' in query["sql"] for query in asked_for) == 1
