"""The pages of safety and waste, as the photographer sees and fills them in."""

import pytest
from django.urls import reverse

from plates.store.models import ClearingTime, StoreRoom, WasteContainer, WasteEntry
from plates.store.services.waste import mark_container
from tests.builders import store as stores
from tests.reading.pages import Page

pytestmark = pytest.mark.django_db


def page(response):
    return Page(response)


def test_what_is_at_hand_is_shown_with_its_source_and_what_overrides_it(photographer):
    stores.a_bath()

    found = page(photographer.get(reverse("plates:safety")))

    assert "H314: Causes severe skin burns and eye damage." in found.text
    assert "Annex VI of CLP, a public copy through ATP 22 (A)" in found.text
    assert "The supplier's safety data sheet overrides this." in found.text
    assert "Goggles always: silver nitrate blinds." in found.text


def test_cyanide_is_told_to_be_off_and_warned_of_when_it_is_on(photographer):
    assert "Cyanide is switched off" in page(photographer.get(reverse("plates:safety"))).text

    StoreRoom.objects.create(pk=1, cyanide_on=True)

    assert "gives off a gas that kills" in page(photographer.get(reverse("plates:safety"))).text


def test_the_studio_keeps_its_own_figure_for_fire(photographer):
    stores.a_batch("collodion", "C 1")  # a litre

    photographer.post(reverse("plates:safety"), {"fire_limit": "500"})

    found = page(photographer.get(reverse("plates:safety")))
    assert "More than your own figure: 1000 mL of ether, alcohol, collodion and varnish" in found.text


def test_a_figure_below_nothing_is_refused(photographer):
    response = photographer.post(reverse("plates:safety"), {"fire_limit": "-1"})

    assert response.status_code == 400
    assert "greater than or equal to 0" in page(response).text


@pytest.mark.parametrize(
    "address",
    [("plates:batch_label", "batch_id"), ("plates:substance_label", "ether")],
    ids=["batch", "substance"],
)
def test_labels_are_pdf(photographer, address):
    name, argument = address
    wanted = stores.a_batch().pk if argument == "batch_id" else argument

    response = photographer.get(reverse(name, args=[wanted]))

    assert response["Content-Type"] == "application/pdf"
    assert response.content.startswith(b"%PDF-")


def test_a_substance_that_has_no_row_has_no_label(photographer):
    assert photographer.get(reverse("plates:substance_label", args=["moonlight"])).status_code == 404


def test_waste_is_marked_written_down_and_read_again(photographer):
    photographer.post(reverse("plates:mark_container"), {"label": "W 3", "holds": "silver"})
    container = WasteContainer.objects.get()
    facts = {
        "container": container.pk,
        "kind": "kept",
        "amount": "500",
        "on": "2026-11-19",
        "what": "Used fixer",
    }

    photographer.post(reverse("plates:waste"), facts)

    found = page(photographer.get(reverse("plates:waste")))
    assert "Put into it: Used fixer 500 mL" in found.text
    assert WasteEntry.objects.get().operator is not None


WRONG = {
    "kept without what": ({"what": ""}, "Say what was put into it."),
    "collected by nobody": ({"kind": "collected"}, "Say which licensed service collected it."),
    "a day still to come": ({"on": "2026-11-22"}, "Waste is written down on its day or later, not before."),
    "nothing": ({"amount": "0"}, "Ensure this value is greater than or equal to 0.001."),
}


@pytest.mark.parametrize(("changes", "sentence"), WRONG.values(), ids=WRONG)
def test_what_says_too_little_is_refused(photographer, changes, sentence):
    container = mark_container(label="W 3", kind="silver")
    facts = {
        "container": container.pk,
        "kind": "kept",
        "amount": "500",
        "on": "2026-11-19",
        "what": "Used fixer",
    }

    response = photographer.post(reverse("plates:waste"), facts | changes)

    assert response.status_code == 400
    assert sentence in page(response).errors
    assert not WasteEntry.objects.exists()


def test_a_clearing_time_is_noted(photographer):
    fixer = stores.a_batch()

    photographer.post(reverse("plates:note_clearing"), {"fixer": fixer.pk, "seconds": "40"})

    assert ClearingTime.objects.get().seconds == 40
