"""The dark tent without scripts: every step is a form, and the page is read anew."""

from datetime import timedelta

import pytest

from plates.bench.models import Plate
from tests import builders
from tests.builders import NOW
from tests.plates.tent.pages import address, form_of

pytestmark = pytest.mark.django_db


def test_without_scripts_the_step_is_a_form_and_the_page_stays_with_the_plate(photographer, slot):
    fields = form_of(photographer.get(address(slot)), "step")

    answer = photographer.post(address(slot, "tent_press"), fields)

    assert answer.url == f"{address(slot)}?plate={slot.pk}"
    assert '<button class="step">Out of the bath</button>' in photographer.get(answer.url).content.decode()


def test_without_scripts_a_plate_is_made_up_to_the_rack(photographer, slot):
    for _ in range(7):
        fields = form_of(photographer.get(address(slot)), "step")
        assert photographer.post(address(slot, "tent_press"), fields).status_code == 302

    assert Plate.objects.get().stage == "drying"
    assert "No plate of this day is left for the tent." in photographer.get(address(slot)).content.decode()


def test_without_scripts_the_press_can_be_taken_back(photographer, slot, clock):
    builders.made_plate(slot, "sensitised", NOW)
    clock.shift(timedelta(seconds=20))
    fields = form_of(photographer.get(address(slot)), "undo")

    photographer.post(address(slot, "tent_press"), fields)

    assert Plate.objects.get().stage == "poured"


def test_without_scripts_a_plate_is_given_up_with_a_reason(photographer, slot):
    builders.made_plate(slot, "sensitised", NOW)
    fields = form_of(photographer.get(address(slot)), "spoil-form") | {"reason": "streaked"}

    photographer.post(address(slot, "tent_press"), fields)

    assert Plate.objects.get().spoilt_reason == "streaked"


def test_without_scripts_a_refusal_stands_on_the_page(photographer, slot):
    fields = form_of(photographer.get(address(slot)), "step")
    builders.made_plate(slot, "poured", NOW)

    answer = photographer.post(address(slot, "tent_press"), fields)

    assert answer.status_code == 409
    assert (
        "Not entered: A plate for this place in the order is already being made." in answer.content.decode()
    )
