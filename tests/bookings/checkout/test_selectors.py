"""A day is quoted by the prices that it will be sold at."""

from datetime import UTC, date, datetime, timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from bookings.checkout import selectors as offers
from bookings.diary.models import SittingDay
from bookings.errors import DiscountRefused, NotForSale
from bookings.orders.wishes import Wish
from bookings.pricing.models import SizePrice, Terms
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


def asked(size, now=NOW, **wish):
    return offers.offered(wish=Wish(sizes=[size], **wish), now=now)


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


def test_each_day_is_quoted_on_the_terms_and_at_the_travel_price_of_its_own_venue(quarter):
    home = builders.a_day()
    fair = builders.a_day(venue=builders.a_venue(name="Fair"), bench=builders.a_bench(name="Tent"))
    builders.a_surcharge("travel", venue=fair.venue, amount=2000)
    Terms.objects.create(
        version="fair-1",
        venue=fair.venue,
        holds_from=date(2026, 1, 1),
        deposit_share_bp=10000,
        text="All now.",
    )

    offered = asked(quarter)

    told = {day.openings.day: (day.quote.gross, day.quote.deposit_now) for day in offered.days}
    assert told == {home: (8500, 4250), fair: (10500, 10500)}
    assert (offered.prices_differ, offered.places_differ) == (True, True)


def test_a_day_without_terms_is_not_offered_and_without_any_nothing_is(quarter, days):
    Terms.objects.update(venue=days[0].venue)
    far = builders.a_day(zone="Atlantic/Azores", bench=builders.a_bench(name="Island bench"))

    assert far not in [day.openings.day for day in asked(quarter).days]
    Terms.objects.all().delete()
    with pytest.raises(NotForSale, match=r"^There are no terms that hold on that date"):
        asked(quarter)


def test_a_discount_is_taken_off_every_day(quarter, days):
    builders.a_discount(share_bp=1000)

    offered = asked(quarter, code="HARBOUR10")

    assert [day.quote.gross for day in offered.days] == [8500 - 850, 9500 - 950]


def test_a_code_is_looked_at_on_the_clock_of_the_days_and_not_of_the_server(quarter):
    """Honolulu is ten hours behind Greenwich (tz database)."""
    builders.a_day(zone="Pacific/Honolulu", bench=builders.a_bench(name="Far bench"))
    builders.a_discount(holds_until=NOW.date())

    late = datetime(2026, 11, 21, 9, 59, tzinfo=UTC)

    assert asked(quarter, now=late, code="HARBOUR10").quote.gross == 7650
    with pytest.raises(
        DiscountRefused, match=r"^The code HARBOUR10 could be used until Friday 20 November 2026"
    ):
        asked(quarter, now=late + timedelta(minutes=1), code="HARBOUR10")


def test_open_days_are_announced_with_what_is_charged_for_the_way(days):
    fair = builders.a_day(
        on=date(2026, 12, 12), venue=builders.a_venue(name="Fair"), bench=builders.a_bench(name="Tent")
    )
    builders.a_surcharge("travel", venue=fair.venue, amount=2000)
    builders.a_surcharge("travel", venue=fair.venue, amount=2500, holds_from=date(2026, 12, 13))

    told = [(each.day, each.travel) for each in offers.announced(now=NOW)]

    assert told == [(days[0], 0), (days[1], 0), (fair, 2000)]
