"""The photographer's pages at a studio that speaks German, on a day with something of everything."""

import re
from datetime import UTC, datetime, timedelta

import pytest
from django.urls import reverse

from bookings.invoices.services import issuing as invoices
from bookings.studio.language import speaking_for_the_studio
from bookings.walkups.services import line
from plates.bench.models import Stage
from tests import builders
from tests.bookings.studio.german import a_german_studio, english_in
from tests.builders.store import a_bath
from tests.reading.pages import Page
from tests.reading.papers import flowing

pytestmark = pytest.mark.django_db

# A quarter past ten on the day: the first sitter is here, a plate is in the wash, the line is open.
AT = datetime(2026, 11, 28, 10, 15, tzinfo=UTC)
OF_THE_DAY = ["day", "late", "plan_day", "chances", "line", "line_sheet"]
OF_AN_ORDER = ["order", "move", "cancel", "made_out_to"]
BY_THEMSELVES = [
    *[
        "planner",
        "orders",
        "vouchers",
        "sell_voucher",
        "cards",
        "cash",
        "books",
        "open_invoices",
        "to_invoice",
    ],
    *["numbers", "statements", "finishing", "closed_days", "handovers", "wordings"],
]


@pytest.fixture
def day(day):
    a_german_studio()
    return day


@pytest.fixture
def order(day):
    """Paid in part, invoiced, with one plate in the wash and one spoilt."""
    with speaking_for_the_studio():
        order = builders.a_paid_order(
            day, name="Ines Madrugada", email="ines@example.org", sizes=["quarter", "half"]
        )
        builders.made_plates(order, stage=Stage.WASHING, now=AT - timedelta(minutes=5))
        invoices.issue(order_id=order.pk, now=AT)
        builders.a_paid_order(
            day, at=datetime(2026, 11, 28, 12, tzinfo=UTC), name="Rui", email="rui@example.org"
        )
        line.open_or_close(day_id=day.pk, keeps=True)
        builders.a_line_place(day, now=AT)
        builders.a_voucher(8000, for_name="Rui")
    return order


@pytest.fixture
def reader(client, order, clock):
    """Reads a page of the studio, on which nothing may be in English."""
    clock.move_to(AT)
    client.force_login(builders.an_operator())

    def read(name, *arguments):
        response = client.get(reverse(name, args=arguments))
        assert response.status_code == 200
        assert '<html lang="de">' in response.content.decode()
        page = Page(response)
        assert english_in(page.text) == [], page.text
        return page

    return read


def test_the_pages_of_a_day_and_of_an_order(reader, day, order):
    for name in OF_THE_DAY:
        reader(f"studio:{name}", day.pk)
    for name in OF_AN_ORDER:
        assert order.reference in reader(f"studio:{name}", order.reference).text


def test_the_pages_of_the_desk_and_the_books(reader):
    for name in BY_THEMSELVES:
        reader(f"studio:{name}")


def test_the_pages_of_the_plates(reader, day, order):
    number = order.sitting.bench_job.slots.first().plates.get().number
    bench = day.bench_day.bench_id

    assert "In der Wässerung" in reader("plates:plate", number).text
    for name, arguments in {"plates": [], "bench": [bench], "timings": [bench], "tent_light": []}.items():
        reader(f"plates:{name}", *arguments)


# Recipes, and where a class of hazard is from, stand as their sources print them.
STORE = ["store", "supplies", "new_supply", "shopping", "waste", "costs"]


def test_the_pages_of_the_store_room(reader):
    for name in STORE:
        reader(f"plates:{name}")


def test_a_weak_bath_is_told_of(reader):
    bath = a_bath("Bad eins", silver_mg=90_000, now=AT)

    page = reader("plates:bath", bath.pk)

    assert "Das Bad hält 60.0 g/L: Verstärken Sie es vor der nächsten Platte." in page.text
    assert "Ziel 90" in page.text


def test_the_label_of_a_bath_warns(reader, client):
    bath = a_bath("Bad eins", now=AT)

    label = flowing(client.get(reverse("plates:batch_label", args=[bath.pk])).content)
    page = Page(client.get(reverse("plates:safety"))).text

    for said in (label, page):
        assert "H314" in said
        assert "Verursacht schwere Verätzungen der Haut und schwere Augenschäden." in said
        assert "Silbernitrat" in said
    assert "GEFAHR" in label.upper()


def test_the_dark_tent_speaks_german_on_the_page_and_to_its_scripts(reader, day, client):
    page = reader("plates:tent", day.bench_day_id)
    told = client.get(reverse("plates:tent_state", args=[day.bench_day_id])).json()

    assert "Kein Netz: {presses}, wird gesendet, wenn es wieder da ist." in told["words"].values()
    assert told["clocks"]["poured"]["go"] == "Darf heraus"
    assert "Gießen" in page.text


def test_lengths_of_a_drawing_keep_their_dots(client, order, day, clock):
    """A comma would end a number in SVG and in CSS (https://www.w3.org/TR/SVG11/types.html#DataTypeNumber)."""
    clock.move_to(AT)
    client.force_login(builders.an_operator())

    drawn = client.get(reverse("studio:plan_day", args=[day.pk])).content.decode()

    assert "<svg" in drawn
    assert not re.search(r'(?:x|y|width|height|d|viewBox)="[^"]*\d,\d', drawn)
