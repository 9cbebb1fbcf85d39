"""What is for sale on a date, and for how much."""

from datetime import date

import pytest

from bookings.errors import NotForSale, StudioMissing
from bookings.orders.selectors import lines as quotes
from bookings.orders.selectors.lines import lines_for
from bookings.orders.wishes import Wish
from bookings.pricing import selectors as prices
from bookings.pricing.models import SizePrice, Terms
from bookings.studio.selectors import the_studio
from plates.bench.models import PlateSize
from tests import builders

pytestmark = pytest.mark.django_db

SPRING, SUMMER = date(2026, 3, 1), date(2026, 6, 1)


@pytest.fixture
def quarter():
    """A quarter plate at 85.00 from January and 95.00 from June."""
    size = builders.a_size("quarter")
    SizePrice.objects.create(size=size, amount=9500, tax_class=builders.a_tax_class(), holds_from=SUMMER)
    return size


@pytest.mark.parametrize(
    ("on", "amount"),
    [(SPRING, 8500), (date(2026, 5, 31), 8500), (SUMMER, 9500), (date(2030, 1, 1), 9500)],
)
def test_the_price_of_a_date_is_the_newest_that_holds_then(quarter, on, amount):
    assert {price.size: price.amount for price in prices.prices(on=on).values()} == {quarter: amount}


def test_a_size_that_is_no_longer_offered_is_not_listed(quarter):
    PlateSize.objects.update(offered=False)

    assert prices.price_list(on=SPRING) == []


def test_the_price_list_shows_the_smallest_plate_first():
    for name in ("whole", "sixth", "half", "quarter"):
        builders.a_size(name)

    listed = [(price.size.name, price.amount) for price in prices.price_list(on=SPRING)]

    assert listed == [("sixth", 6500), ("quarter", 8500), ("half", 12500), ("whole", 19500)]


def test_a_line_keeps_its_rate_when_the_tax_class_changes_later(quarter):
    order = builders.a_held_order(builders.a_day())
    tax = builders.a_tax_class()
    tax.rate_bp = 2500
    tax.save()

    line = order.lines.get()

    assert (line.tax_rate_bp, line.as_priced().rate_bp) == (2300, 2300)


def test_a_quote_asks_for_the_deposit_now_and_the_rest_later(quarter):
    lines = lines_for(wish=Wish(sizes=[quarter, quarter]), on=SPRING, venue=None)

    quoted = quotes.quote_lines(lines=lines, currency="EUR", terms=builders.some_terms())

    assert (quoted.gross, quoted.deposit_now, quoted.balance_later) == (17000, 8500, 8500)


def test_the_terms_of_a_date_are_the_newest_that_hold_then():
    builders.some_terms()
    text = "Other terms."
    newer = Terms.objects.create(version="2026-2", holds_from=SUMMER, deposit_share_bp=0, text=text)
    newest = Terms.objects.create(version="2026-3", holds_from=SUMMER, deposit_share_bp=0, text=text)

    assert newer.pk < newest.pk
    assert prices.current_terms(on=SPRING, venue=None).version == "2026-1"
    assert prices.current_terms(on=SUMMER, venue=None) == newest


def test_the_terms_of_a_venue_come_before_newer_ones_for_everywhere():
    everywhere, fair, home = builders.some_terms(), builders.a_venue(name="Fair"), builders.a_venue()
    facts = {"deposit_share_bp": 0, "text": "Other terms."}
    own = Terms.objects.create(version="fair-1", venue=fair, holds_from=date(2026, 2, 1), **facts)
    newer = Terms.objects.create(version="2026-2", holds_from=SPRING, **facts)

    held = [prices.current_terms(on=on, venue=fair) for on in (date(2026, 1, 31), date(2026, 2, 1), SUMMER)]

    assert held == [everywhere, own, own]
    assert prices.current_terms(on=SUMMER, venue=home) == newer


def test_a_visitor_is_shown_the_terms_for_everywhere_and_then_those_of_venues_that_have_own():
    everywhere, fair, home = builders.some_terms(), builders.a_venue(name="Fair"), builders.a_venue()
    own = Terms.objects.create(
        version="fair-1", venue=fair, holds_from=SPRING, deposit_fixed=1000, text="Pay at the tent."
    )

    assert prices.terms_shown(venues=[home, fair, home, fair], on=SUMMER) == [everywhere, own]
    assert prices.terms_shown(venues=[home, fair], on=date(2026, 2, 1)) == [everywhere]


def test_without_terms_nothing_can_be_booked():
    with pytest.raises(
        NotForSale, match=r"^There are no terms that hold on that date, so nothing can be booked yet"
    ):
        prices.current_terms(on=SPRING, venue=None)


def test_what_company_costs_is_told_from_the_least_to_the_most():
    fair = builders.a_venue(name="Fair")
    builders.a_surcharge(amount=1000)
    builders.a_surcharge(amount=1500, holds_from=SPRING)
    builders.a_surcharge(amount=500, venue=fair)
    builders.a_surcharge("travel", amount=9000, venue=fair)

    assert prices.further_sitter_amounts(on=SPRING) == [500, 1500]
    assert prices.further_sitter_amounts(on=date(2025, 12, 31)) == []


def test_where_company_is_free_everywhere_nothing_is_told():
    builders.a_surcharge(amount=1000)
    builders.a_surcharge(amount=0, holds_from=SPRING)

    assert prices.further_sitter_amounts(on=SPRING) == []


def test_without_a_studio_there_is_a_sentence_that_says_what_to_do():
    with pytest.raises(
        StudioMissing, match=r"^Enter the studio's name, address and currency before taking bookings"
    ):
        the_studio()
