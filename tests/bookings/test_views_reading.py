"""Reading changes nothing: mail programs and browsers fetch addresses by themselves (RFC 9110, 9.2.1)."""

import pytest
from django.apps import apps
from django.urls import reverse

from bookings.invoices.services import issuing as invoices
from bookings.orders import links
from plates.bench.models import Plate
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db


@pytest.fixture
def addresses(day):
    """Every address that can be read, over one held, one placed and one confirmed order with a plate begun."""
    held = builders.a_held_order(day)
    placed = builders.a_placed_order(day, at=NOW.replace(day=28, hour=12))
    paid = builders.a_paid_order(day, at=NOW.replace(day=28, hour=14))
    builders.made_plates(paid)
    invoice = invoices.issue(order_id=paid.pk, now=NOW)
    plate, size = Plate.objects.get(), builders.a_size()
    by_order = ("order", "made_out_to", "pickup_notice", "cancel", "move")
    return [
        reverse("home"),
        reverse("choose"),
        f"{reverse('times')}?size_{size.pk}=1",
        reverse("details", args=[links.checkout_token(held)]),
        reverse("deposit", args=[links.checkout_token(placed)]),
        reverse("sitting", args=[links.sitting_token(paid)]),
        reverse("sitting_calendar", args=[links.sitting_token(paid)]),
        reverse("studio:today"),
        *(reverse(f"studio:{page}", args=[day.pk]) for page in ("day", "run_sheet", "plan_day")),
        reverse("studio:planner"),
        f"{reverse('studio:orders')}?q=ines",
        *(reverse(f"studio:{page}", args=[paid.reference]) for page in by_order),
        *(
            reverse(f"studio:{page}", args=[invoice.pk])
            for page in ("invoice", "einvoice", "take_back_invoice")
        ),
        reverse("studio:spoil", args=[plate.pk]),
        reverse("plates:plate", args=[plate.number]),
        reverse("plates:bench", args=[day.bench_day.bench_id]),
    ]


def every_row():
    return {model: sorted(map(repr, model.objects.values_list())) for model in apps.get_models()}


@pytest.mark.parametrize(
    ("method", "headers"),
    [("get", {}), ("head", {}), ("get", {"Sec-Purpose": "prefetch", "Purpose": "prefetch"})],
)
def test_reading_every_page_twice_changes_no_row(photographer, addresses, method, headers):
    before = every_row()

    answers = {
        address: getattr(photographer, method)(address, headers=headers).status_code
        for address in addresses
        for _ in range(2)
    }

    assert {address: code for address, code in answers.items() if code not in {200, 302}} == {}
    assert every_row() == before


def test_the_address_that_acts_cannot_be_read_at_all(photographer, addresses):
    acting = [
        reverse("hold"),
        reverse("studio:pour", args=[1]),
        reverse("studio:press", args=[1]),
        reverse("studio:issue", args=["AAAA2222"]),
        reverse("practice_card", args=["x"]),
    ]

    assert {address: photographer.get(address).status_code for address in acting} == dict.fromkeys(
        acting, 405
    )
