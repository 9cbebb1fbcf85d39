"""German words are longer than English ones: the pages hold them on the narrowest telephone."""

from datetime import timedelta

import pytest
from django.urls import reverse

from bookings.orders import links
from plates.bench.models import PlateSize, Stage
from tests import builders
from tests.bookings.studio.german import a_german_studio
from tests.browser import measures
from tests.browser.conftest import signed_in

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


@pytest.fixture
def order():
    for name in builders.SIZES:
        builders.a_size(name)
    day = builders.a_day()
    a_german_studio()
    order = builders.a_paid_order(day, name="Ines Madrugada", email="ines@example.org")
    builders.made_plates(order, stage=Stage.WASHING, now=builders.NOW - timedelta(minutes=1))
    return order


def addresses(order):
    day = order.sitting.day
    quarter = PlateSize.objects.get(name="quarter").pk
    yield from [reverse("home"), f"{reverse('times')}?size_{quarter}=1", reverse("give_voucher")]
    yield reverse("sitting", args=[links.sitting_token(order)])
    yield from [reverse(f"studio:{name}", args=[day.pk]) for name in ("day", "late", "plan_day", "line")]
    yield from [reverse(f"studio:{name}", args=[order.reference]) for name in ("order", "cancel")]
    yield from [reverse(f"studio:{name}") for name in ("planner", "orders", "cash", "books", "vouchers")]
    yield reverse("plates:tent", args=[day.bench_day_id])


def test_no_page_scrolls_sideways_at_320_pixels(open_window, site, operator, order):
    """WCAG 2.2, 1.4.10 (reflow)."""
    page = open_window(width=320, scripts=True, cookies=signed_in(site, operator)).page
    overhanging = {}
    for address in addresses(order):
        page.goto(address)
        page.evaluate(measures.OPEN_ALL)
        overhanging[address] = page.evaluate(measures.OVERHANG)

    assert {address: over for address, over in overhanging.items() if over > 0} == {}
    assert page.locator("html").get_attribute("lang") == "de"
