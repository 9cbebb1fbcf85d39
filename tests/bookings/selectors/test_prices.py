"""What is for sale on a date, and for how much."""

from datetime import date

import pytest

from bookings.errors import NotForSale, StudioMissing
from bookings.models import SizePrice, Terms
from bookings.selectors import prices
from plates.models import PlateSize
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


def test_before_its_first_price_a_size_is_not_for_sale(quarter):
    with pytest.raises(NotForSale, match=r"^quarter plates are not for sale on 31 December 2025\."):
        prices.lines_for(sizes=[quarter], extras={}, on=date(2025, 12, 31))


def test_a_size_that_is_no_longer_offered_is_not_for_sale_and_not_listed(quarter):
    PlateSize.objects.update(offered=False)
    quarter.refresh_from_db()

    assert prices.price_list(on=SPRING) == []
    with pytest.raises(NotForSale, match=r"^quarter plates are not for sale on 01 March 2026\."):
        prices.lines_for(sizes=[quarter], extras={}, on=SPRING)


def test_the_price_list_shows_the_smallest_plate_first():
    for name in ("whole", "sixth", "half", "quarter"):
        builders.a_size(name)

    listed = [(price.size.name, price.amount) for price in prices.price_list(on=SPRING)]

    assert listed == [("sixth", 6500), ("quarter", 8500), ("half", 12500), ("whole", 19500)]


def test_the_lines_of_a_wish_are_its_plates_in_order_and_then_its_extras(quarter):
    half, case = builders.a_size("half"), builders.an_extra()

    lines = prices.lines_for(sizes=[half, quarter, half], extras={case: 2}, on=SPRING)

    assert [(line.position, line.text, line.quantity, line.unit_amount) for line in lines] == [
        (1, "half plate", 1, 12500),
        (2, "quarter plate", 1, 8500),
        (3, "half plate", 1, 12500),
        (4, "Velvet case", 2, 3000),
    ]
    assert {(line.tax_category, line.tax_rate_bp) for line in lines} == {("S", 2300)}


def test_the_same_wish_is_quoted_for_each_date_on_which_it_is_for_sale(quarter):
    early = date(2025, 12, 31)

    quoted = prices.quotes(
        sizes=[quarter, quarter],
        extras={builders.an_extra(): 1},
        dates={early, SPRING, SUMMER},
        currency="EUR",
        terms=builders.some_terms(),
    )

    # Two plates and a case; half of the sum now.
    assert {on: (quote.gross, quote.deposit_now) for on, quote in quoted.items()} == {
        SPRING: (2 * 8500 + 3000, 10000),
        SUMMER: (2 * 9500 + 3000, 11000),
    }


def test_a_line_keeps_its_rate_when_the_tax_class_changes_later(quarter):
    order = builders.a_held_order(builders.a_day())
    tax = builders.a_tax_class()
    tax.rate_bp = 2500
    tax.save()

    line = order.lines.get()

    assert (line.tax_rate_bp, line.as_priced().rate_bp) == (2300, 2300)


def test_a_quote_asks_for_the_deposit_now_and_the_rest_later(quarter):
    lines = prices.lines_for(sizes=[quarter, quarter], extras={}, on=SPRING)

    quoted = prices.quote_lines(lines=lines, currency="EUR", terms=builders.some_terms())

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


def test_without_a_studio_there_is_a_sentence_that_says_what_to_do():
    with pytest.raises(
        StudioMissing, match=r"^Enter the studio's name, address and currency before taking bookings"
    ):
        prices.the_studio()
