"""The papers as the photographer's browser asks for them, and the way from a plate to its order."""

import io

import pikepdf
import pytest
from django.urls import reverse

from plates.bench.models import Stage
from tests import builders

pytestmark = pytest.mark.django_db


@pytest.fixture
def order():
    return builders.a_paid_order(builders.a_day())


@pytest.fixture
def plate(order):
    return builders.made_plates(order, stage=Stage.WASHING)[0]


@pytest.fixture
def addresses(order, plate):
    day = order.sitting.day_id
    return {
        f"run-sheet-{builders.SATURDAY}.pdf": reverse("studio:run_sheet", args=[day]),
        f"rack-sheet-{builders.SATURDAY}.pdf": reverse("studio:rack_sheet", args=[day]),
        f"labels-{builders.SATURDAY}.pdf": reverse("studio:day_labels", args=[day]),
        f"label-{plate.number}.pdf": reverse("studio:plate_label", args=[plate.number]),
    }


def width(response):
    with pikepdf.open(io.BytesIO(response.content)) as opened:
        return round(float(opened.pages[0].mediabox[2]))


# 210 mm and 8.5 inches in points (ISO 216; 72 points to the inch). Anything else is the studio's usual sheet.
@pytest.mark.parametrize(("asked", "points"), [("letter", 612), ("a4", 595), ("", 595), ("a3", 595)])
def test_a_paper_comes_on_the_sheet_that_is_asked_for(photographer, addresses, asked, points):
    for name, address in addresses.items():
        response = photographer.get(address, {"paper": asked})

        assert width(response) == points
        assert response["Content-Type"] == "application/pdf"
        assert response["Content-Disposition"] == f'inline; filename="{name}"'
        assert "no-store" in response["Cache-Control"]


def test_a_plate_leads_to_the_order_it_was_made_for(photographer, order, plate):
    response = photographer.get(reverse("studio:plate_order", args=[plate.number]))

    assert response.url == reverse("studio:order", args=[order.reference])


def test_the_page_of_a_plate_links_to_its_order_and_its_label(photographer, plate):
    shown = photographer.get(reverse("plates:plate", args=[plate.number])).content.decode()

    assert reverse("studio:plate_order", args=[plate.number]) in shown
    assert reverse("studio:plate_label", args=[plate.number]) in shown


@pytest.mark.parametrize("name", ["rack_sheet", "day_labels", "plate_label", "plate_order"])
def test_what_is_not_there_is_not_found(photographer, name):
    assert photographer.get(reverse(f"studio:{name}", args=[999])).status_code == 404
