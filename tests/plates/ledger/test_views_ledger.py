"""A plate's history and a bench's settings: numbers only, so that a client can be forgotten without touching them."""

from datetime import timedelta

import pytest
from django.contrib.auth.models import User
from django.urls import reverse

from plates.bench.models import PlateSlot, SpoiltReason, Stage
from plates.ledger.services import events as ledger
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

PERSON = {"name": "Ines Madrugada", "email": "ines@example.org", "phone": "+351 555 010 010"}


@pytest.fixture
def order():
    return builders.a_paid_order(builders.a_day(), **PERSON)


@pytest.fixture
def slot(order):
    return PlateSlot.objects.get(job=order.sitting.bench_job)


def history_of(client, plate):
    return client.get(reverse("plates:plate", args=[plate.number]))


def test_a_plate_tells_every_stage_in_order_with_its_time_and_who_pressed(photographer, slot):
    plate = ledger.pour(slot_id=slot.pk, operator=User.objects.get(), now=NOW)
    ledger.record_stage(
        plate_id=plate.pk, stage=Stage.SENSITISED, operator=None, now=NOW + timedelta(minutes=4)
    )

    shown = history_of(photographer, plate)

    assert shown.context["history"] == [
        ("Poured", NOW, "operator", ""),
        ("Sensitised", NOW + timedelta(minutes=4), "", ""),
    ]
    assert "20 Nov 2026, 09:04:00" in shown.content.decode()


def test_a_spoilt_plate_tells_why_and_keeps_the_note(photographer, slot):
    plate = builders.made_plate(slot, Stage.EXPOSED, NOW)
    ledger.spoil(
        plate_id=plate.pk, reason=SpoiltReason.FOGGED, note="lamp <too> near", operator=None, now=NOW
    )

    shown = history_of(photographer, plate).content.decode()

    assert "Spoilt: fogged." in shown
    assert "lamp &lt;too&gt; near" in shown


@pytest.mark.parametrize("page", ["plate", "bench"])
def test_no_page_of_the_plates_names_a_client_or_an_order(photographer, order, slot, page):
    plate = builders.made_plate(slot, Stage.WASHING, NOW)
    row = plate.number if page == "plate" else order.sitting.bench_job.day.bench_id

    shown = photographer.get(reverse(f"plates:{page}", args=[row])).content.decode()

    assert f"Plate {plate.number}" in shown
    assert [fact for fact in [*PERSON.values(), "Madrugada", order.reference] if fact in shown] == []


def test_a_bench_tells_its_planning_values_and_what_is_in_its_wash(photographer, order, slot):
    plate = builders.made_plate(slot, Stage.WASHING, NOW)

    shown = photographer.get(reverse("plates:bench", args=[order.sitting.bench_job.day.bench_id]))

    # The planning values of design s.3 (common practice, no source).
    assert "<td>3 to 5</td>" in shown.content.decode()
    assert "<td>60 to 120</td>" in shown.content.decode()
    assert [item.plate for item in shown.context["wash"]] == [plate]


@pytest.mark.parametrize("page", ["plate", "bench"])
@pytest.mark.parametrize("row", [0, 999, 10**30])
def test_what_is_not_there_is_not_found(photographer, page, row):
    assert photographer.get(reverse(f"plates:{page}", args=[row])).status_code == 404


@pytest.mark.parametrize("page", ["plate", "bench"])
def test_an_account_without_rights_is_sent_to_the_door(client, slot, page):
    client.force_login(User.objects.create_user("visitor"))

    response = client.get(reverse(f"plates:{page}", args=[1]))

    assert response.url.startswith(reverse("login"))


@pytest.mark.parametrize("page", ["plate", "bench"])
def test_no_browser_keeps_a_copy(photographer, order, slot, page):
    plate = builders.made_plate(slot, Stage.POURED, NOW)
    row = plate.number if page == "plate" else order.sitting.bench_job.day.bench_id

    response = photographer.get(reverse(f"plates:{page}", args=[row]))

    assert "no-store" in response.headers["Cache-Control"]
