"""The ledger of plates in a browser without script: noting, keeping a picture, looking for it, taking the file home.

Outside: what Chromium draws. The white side of the picture, told by its pixels, changes over in the mirrored view.
"""

import csv
import io

import pytest
from PIL import Image
from playwright.sync_api import expect

from plates.bench.models import Stage
from tests import builders
from tests.browser.conftest import signed_in
from tests.plates.ledger.test_pictures import a_picture, phone_notes

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


@pytest.fixture
def plate():
    return builders.made_plates(builders.a_paid_order(builders.a_day()), stage=Stage.FIXED)[0]


@pytest.fixture(params=[1280, 360])
def page(request, open_window, site, operator, plate):
    return open_window(width=request.param, cookies=signed_in(site, operator)).page


def white_side(picture):
    """On which side of what is drawn there lies the white half."""
    seen = Image.open(io.BytesIO(picture.screenshot())).convert("L")
    left, right = (seen.getpixel((int(seen.width * share), seen.height // 2)) for share in (0.2, 0.8))
    return "left" if left > right else "right"


def test_a_plate_is_noted_pictured_found_and_taken_home(page, plate):
    page.goto(f"/studio/plate/{plate.number}/")
    page.get_by_label("Batch of collodion").fill("C 14")
    page.get_by_label("Exposure (seconds)").fill("4.5")
    page.get_by_role("button", name="Note it").click()
    expect(page.get_by_role("status")).to_have_text(f"Noted for plate {plate.number}.")

    sent = {
        "name": "IMG_1.HEIC",
        "mimeType": "text/plain",
        "buffer": a_picture(size=(600, 400), exif=phone_notes()),
    }
    page.get_by_label("Scan or photo of the plate").set_input_files(sent)
    page.get_by_role("button", name="Keep this picture").click()
    expect(page.get_by_role("img", name=f"Plate {plate.number} changed over")).to_be_visible()
    as_it_is, changed_over = page.locator(".pictures img").all()
    assert (white_side(as_it_is), white_side(changed_over)) == ("left", "right")

    page.get_by_role("link", name="All plates").click()
    page.get_by_label("Batch of collodion").fill("c 1")
    page.get_by_role("button", name="Look").click()
    expect(page.get_by_role("heading", name="1 plate found")).to_be_visible()
    with page.expect_download() as taken:
        page.get_by_role("link", name="All of them as a file (CSV)").click()
    [row] = csv.DictReader(io.StringIO(taken.value.path().read_text(encoding="utf-8")))
    assert (row["number"], row["batch"], row["exposure_seconds"]) == (str(plate.number), "C 14", "4.500")
