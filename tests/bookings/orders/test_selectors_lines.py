"""What a wish costs line by line. Amounts in cents, worked out by hand."""

from datetime import date

import pytest

from bookings.errors import NotForSale
from bookings.orders.selectors.lines import lines_for
from bookings.orders.wishes import Wish
from bookings.pricing.models import SizePrice, TaxClass
from plates.bench.models import PlateSize
from tests import builders

pytestmark = pytest.mark.django_db

SPRING, SUMMER = date(2026, 3, 1), date(2026, 6, 1)


@pytest.fixture
def quarter():
    """A quarter plate at 85.00."""
    return builders.a_size("quarter")


@pytest.fixture
def fair():
    return builders.a_venue(name="Fair")


def told(lines):
    return [(line.text, line.quantity, line.unit_amount) for line in lines]


def priced(*sizes, on=SPRING, venue=None, discount=None, **wish):
    return lines_for(wish=Wish(sizes=sizes, **wish), on=on, venue=venue, discount=discount)


def further(size, amount):
    SizePrice.objects.filter(size=size).update(further_amount=amount)


def test_before_its_first_price_a_size_is_not_for_sale(quarter):
    with pytest.raises(NotForSale, match=r"^quarter plates are not for sale on 31 December 2025\."):
        priced(quarter, on=date(2025, 12, 31))


def test_a_size_that_is_no_longer_offered_is_not_for_sale(quarter):
    PlateSize.objects.update(offered=False)
    quarter.refresh_from_db()

    with pytest.raises(NotForSale, match=r"^quarter plates are not for sale on 01 March 2026\."):
        priced(quarter)


def test_the_lines_of_a_wish_are_its_plates_in_order_and_then_its_extras(quarter):
    half, case = builders.a_size("half"), builders.an_extra()

    lines = priced(half, quarter, half, extras={case: 2})

    assert told(lines) == [
        ("half plate", 1, 12500),
        ("quarter plate", 1, 8500),
        ("half plate", 1, 12500),
        ("Velvet case", 2, 3000),
    ]
    assert [line.position for line in lines] == [1, 2, 3, 4]
    assert {(line.tax_category, line.tax_rate_bp) for line in lines} == {("S", 2300)}


def test_the_first_plate_of_each_size_has_its_price_and_later_ones_the_further_price(quarter):
    half = builders.a_size("half")
    further(quarter, 6000)

    lines = priced(quarter, half, quarter, half, quarter)

    # For the half plate no further price is set.
    assert [line.unit_amount for line in lines] == [8500, 12500, 6000, 12500, 6000]


def test_each_further_person_is_charged_and_the_first_is_not(quarter):
    builders.a_surcharge(amount=1500)

    assert told(priced(quarter, sitters=4))[1:] == [("Further sitter", 3, 1500)]
    assert told(priced(quarter))[1:] == []


def test_the_surcharge_of_a_venue_comes_before_a_newer_one_for_everywhere(quarter, fair):
    builders.a_surcharge(amount=900, venue=fair)
    builders.a_surcharge(amount=1500, holds_from=date(2026, 2, 1))

    asked = [
        priced(quarter, sitters=2, venue=venue)[1].unit_amount for venue in (fair, builders.a_venue(), None)
    ]

    assert asked == [900, 1500, 1500]


def test_the_newest_surcharge_that_holds_is_charged_and_a_surcharge_of_nothing_ends_it(quarter, fair):
    builders.a_surcharge(amount=1500)
    builders.a_surcharge(amount=1800, venue=fair, holds_from=SPRING)
    builders.a_surcharge(amount=0, venue=fair, holds_from=SUMMER)

    days = (date(2026, 2, 28), SPRING, date(2026, 5, 31), SUMMER)
    asked = [told(priced(quarter, sitters=2, venue=fair, on=on))[1:] for on in days]

    assert [[line[2] for line in lines] for lines in asked] == [[1500], [1800], [1800], []]


def test_travel_is_charged_once_a_sitting_at_its_venue_and_nowhere_else(quarter, fair):
    builders.a_surcharge("travel", venue=fair, amount=2000)

    assert told(priced(quarter, quarter, sitters=3, venue=fair))[2:] == [("Travel", 1, 2000)]
    assert told(priced(quarter, venue=builders.a_venue()))[1:] == []


def test_who_stood_in_line_pays_no_travel(quarter, fair):
    builders.a_surcharge("travel", venue=fair, amount=2000)

    lines = lines_for(wish=Wish(sizes=[quarter]), on=SPRING, venue=fair, travel=False)

    assert told(lines) == [("quarter plate", 1, 8500)]


def test_a_discount_is_taken_off_everything_that_is_sold(quarter, fair):
    builders.a_surcharge(amount=1500)
    builders.a_surcharge("travel", venue=fair, amount=2000)
    case = builders.an_extra()

    lines = priced(quarter, extras={case: 1}, sitters=2, venue=fair, discount=builders.a_discount())

    # A tenth of 85.00 + 30.00 + 15.00 + 20.00.
    assert told(lines)[-1] == ("Neighbours", -1, 1500)
    assert lines[-1].as_priced().gross == -1500


def test_a_discount_is_one_line_for_each_tax_class_by_largest_remainder(quarter):
    reduced = TaxClass.objects.create(name="Reduced", category="S", rate_bp=600)
    exempt = TaxClass.objects.create(
        name="Exempt", category="E", rate_bp=0, exemption_reason="Small business"
    )
    scan, post = builders.an_extra("Scan", "scan", 1001), builders.an_extra("Post", "post", 500)
    for extra, tax_class in ((scan, reduced), (post, exempt)):
        extra.tax_class = tax_class
        extra.save()

    lines = priced(
        quarter, extras={scan: 1, post: 1}, discount=builders.a_discount(share_bp=None, amount=1000)
    )

    # 10.00 over 85.00, 10.01 and 5.00 of 100.01: 849.915, 100.089, 49.995; the two cents go to .995 and .915.
    assert [(line.tax_class.name, line.quantity, line.unit_amount) for line in lines[3:]] == [
        ("Standard", -1, 850),
        ("Reduced", -1, 100),
        ("Exempt", -1, 50),
    ]


def test_a_sum_off_is_never_more_than_the_whole_price(quarter):
    lines = priced(quarter, discount=builders.a_discount(share_bp=None, amount=999999))

    assert sum(line.as_priced().gross for line in lines) == 0


def test_a_discount_that_comes_to_nothing_is_no_line(quarter):
    SizePrice.objects.update(amount=40)

    # 1 % of 0.40 is 0.4 cents.
    assert told(priced(quarter, discount=builders.a_discount(share_bp=100))) == [("quarter plate", 1, 40)]
