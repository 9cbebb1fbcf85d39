"""Noting facts of a plate and keeping its picture, as the photographer's browser does both."""

import pytest
from django.contrib.auth.models import User
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from plates.bench.models import PlateFacts, PlateSlot, Stage
from plates.bench.selectors import facts_of
from plates.ledger import pictures
from tests import builders
from tests.builders import NOW
from tests.plates.ledger.test_pictures import a_picture

pytestmark = pytest.mark.django_db

FILLED_IN = {
    "batch": "C 14", "bath": "Bath two", "bath_seconds": "210", "exposure_seconds": "4.5", "lens": "Petzval",
    "developer_seconds": "16", "notes": "cold <morning>",
}  # fmt: skip


@pytest.fixture
def plate():
    order = builders.a_paid_order(builders.a_day())
    return builders.made_plate(PlateSlot.objects.get(job=order.sitting.bench_job), Stage.FIXED, NOW)


def page(plate):
    return reverse("plates:plate", args=[plate.number])


def send_picture(client, plate, content, name="plate.jpg"):
    sent = SimpleUploadedFile(name, content, content_type="image/jpeg")
    return client.post(reverse("plates:keep_picture", args=[plate.number]), {"picture": sent})


def test_what_was_noted_is_shown_again_with_who_noted_it(photographer, plate):
    photographer.post(page(plate), FILLED_IN)

    shown = photographer.get(page(plate)).content.decode()

    assert 'value="4.5"' in shown
    assert "cold &lt;morning&gt;" in shown
    assert "Last changed 20 Nov 2026, 09:00 UTC by operator." in shown


def test_everything_may_be_left_empty(photographer, plate):
    response = photographer.post(page(plate), {"batch": ""})

    assert response.url == page(plate)
    assert facts_of(plate=plate).exposure_seconds is None


@pytest.mark.parametrize(
    ("field", "value", "sentence"),
    [
        ("exposure_seconds", "0", "greater than or equal to 0.001"),
        ("exposure_seconds", "four", "Exposure (seconds): write a number, for example 4.5."),
        ("exposure_seconds", "4.5555", "no more than 3 decimal places"),
        ("bath_seconds", "3601", "less than or equal to 3600"),
        ("developer_seconds", "-1", "greater than or equal to 1"),
        ("batch", "x" * 41, "at most 40 characters"),
        ("notes", "a\0b", "Null characters are not allowed."),
    ],
)
def test_what_cannot_be_noted_is_said_and_kept_as_it_was_typed(photographer, plate, field, value, sentence):
    response = photographer.post(page(plate), FILLED_IN | {field: value})

    shown = response.content.decode()
    assert response.status_code == 400
    assert sentence in shown
    assert f'href="#id_{field}"' in shown
    assert 'value="Petzval"' in shown
    assert not PlateFacts.objects.exists()


def test_a_kept_picture_is_shown_as_it_is_and_changed_over(photographer, plate):
    send_picture(photographer, plate, a_picture())

    shown = photographer.get(page(plate)).content.decode()

    address = reverse("plates:picture", args=[plate.number])
    assert shown.count(f'src="{address}"') == 2
    assert f'<img class="mirrored" src="{address}"' in shown


def test_the_picture_comes_as_a_jpeg_that_no_browser_keeps_or_takes_for_something_else(photographer, plate):
    send_picture(photographer, plate, a_picture(kind="PNG"))

    response = photographer.get(reverse("plates:picture", args=[plate.number]))

    assert response.content == pictures.clean(a_picture(kind="PNG"))
    assert response["Content-Type"] == "image/jpeg"
    assert response["X-Content-Type-Options"] == "nosniff"
    assert "no-store" in response["Cache-Control"]


@pytest.mark.parametrize("who", ["visitor", "stranger"])
def test_nobody_else_sees_the_picture(client, plate, who):
    client.force_login(builders.an_operator())
    send_picture(client, plate, a_picture())
    client.logout()
    if who == "stranger":
        client.force_login(User.objects.create_user("stranger"))

    response = client.get(reverse("plates:picture", args=[plate.number]))

    assert response.url.startswith(reverse("login"))


@pytest.mark.parametrize("name", ["plate.jpg", "../../plate.html"])
def test_what_is_no_picture_is_refused_whatever_its_name(photographer, plate, name):
    response = send_picture(photographer, plate, b"<script>alert(1)</script>", name)

    assert response.status_code == 400
    assert "no JPEG, PNG or WebP picture, or it is damaged" in response.content.decode()
    assert not PlateFacts.objects.exists()


def test_a_picture_that_is_too_heavy_is_refused(photographer, plate):
    response = send_picture(photographer, plate, bytes(pictures.MOST_BYTES + 1))

    assert response.status_code == 400
    assert "larger than 25 MB" in response.content.decode()


def test_pressing_without_a_picture_asks_for_one(photographer, plate):
    response = photographer.post(reverse("plates:keep_picture", args=[plate.number]))

    assert response.status_code == 400
    assert "Choose a picture first." in response.content.decode()


def test_a_picture_can_be_thrown_away(photographer, plate):
    send_picture(photographer, plate, a_picture())

    photographer.post(reverse("plates:keep_picture", args=[plate.number]), {"remove": "1"})

    assert photographer.get(reverse("plates:picture", args=[plate.number])).status_code == 404
    assert "None is kept." in photographer.get(page(plate)).content.decode()


def test_a_picture_whose_file_is_gone_is_not_found(photographer, plate):
    PlateFacts.objects.create(plate=plate, picture="gone.jpg", changed_at=NOW)

    assert photographer.get(reverse("plates:picture", args=[plate.number])).status_code == 404


def test_an_empty_ledger_says_so(photographer):
    assert "No plate has been poured yet." in photographer.get(reverse("plates:plates")).content.decode()
