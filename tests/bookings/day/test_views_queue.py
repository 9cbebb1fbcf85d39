"""The queue of a day, and each press on a plate."""

import pytest
from django.urls import reverse

from plates.bench.models import Plate, PlateSlot, Stage
from tests import builders
from tests.reading.pages import Page

pytestmark = pytest.mark.django_db

NUL = "Null characters are not allowed."
HUGE = 10**30


@pytest.fixture
def slot(day):
    """The one plate of a confirmed sitting, of whose price half is still owed."""
    return PlateSlot.objects.get(job=builders.a_paid_order(day).sitting.bench_job)


def press(client, plate, stage):
    return client.post(reverse("studio:press", args=[plate.pk]), {"stage": stage}, follow=True)


def refusal(response):
    """The sentence above the queue, to which a press leads back."""
    assert response.redirect_chain[-1][1] == 302
    return Page(response).text


def test_pouring_begins_a_plate_and_leads_back_to_its_sitting(photographer, day, slot):
    response = photographer.post(reverse("studio:pour", args=[slot.pk]))

    assert Plate.objects.get().slot == slot
    assert response.url.startswith(f"{reverse('studio:day', args=[day.pk])}#sitting-")


def test_pouring_twice_pours_once_and_says_why(photographer, slot):
    photographer.post(reverse("studio:pour", args=[slot.pk]))

    response = photographer.post(reverse("studio:pour", args=[slot.pk]), follow=True)

    assert "A plate for this place in the order is already being made." in refusal(response)
    assert Plate.objects.count() == 1


@pytest.mark.parametrize("stage", ["", "fixed", "spoilt", "nonsense", "sensitised\0", "9" * 5000])
def test_a_press_out_of_turn_says_what_comes_next(photographer, slot, stage):
    plate = builders.made_plate(slot, Stage.POURED, builders.NOW)

    response = press(photographer, plate, stage)

    assert f"Plate {plate.number} is poured; the next stage is sensitised" in refusal(response)
    assert Plate.objects.get().stage == Stage.POURED


def test_the_same_press_twice_moves_a_plate_once(photographer, slot):
    plate = builders.made_plate(slot, Stage.POURED, builders.NOW)
    press(photographer, plate, "sensitised")

    response = press(photographer, plate, "sensitised")

    assert 'class="refusal"' not in response.content.decode()
    assert Plate.objects.get().stage == Stage.SENSITISED


def test_a_plate_stays_here_while_money_is_owed_for_it(photographer, slot):
    plate = builders.made_plate(slot, Stage.READY, builders.NOW)

    response = press(photographer, plate, "handed_over")

    # 85.00 less the deposit of half of it, worked out by hand.
    assert "€42.50 is still owed on order" in refusal(response)
    assert Plate.objects.get().stage == Stage.READY


@pytest.mark.parametrize(
    ("sent", "sentence"),
    [
        ({}, "Fill in: reason."),
        ({"reason": ""}, "Fill in: reason."),
        ({"reason": "boredom"}, "Select a valid choice. boredom is not one of the available choices."),
        ({"reason": "\0"}, "Select a valid choice. \0 is not one of the available choices."),
        ({"reason": "fogged", "note": "a\0"}, NUL),
        (
            {"reason": "fogged", "note": "a" * 201},
            "Ensure this value has at most 200 characters (it has 201).",
        ),
    ],
)
def test_a_plate_is_not_given_up_without_a_sound_reason(photographer, slot, sent, sentence):
    plate = builders.made_plate(slot, Stage.POURED, builders.NOW)

    response = photographer.post(reverse("studio:spoil", args=[plate.pk]), {"note": "light leak"} | sent)

    page = Page(response)
    assert (response.status_code, page.errors) == (400, [sentence])
    assert page.fields["note"] == ({"note": "light leak"} | sent)["note"]
    assert Plate.objects.get().stage == Stage.POURED


def test_a_plate_that_was_handed_over_cannot_be_spoilt(photographer, slot):
    plate = builders.made_plate(slot, Stage.HANDED_OVER, builders.NOW)

    response = photographer.post(reverse("studio:spoil", args=[plate.pk]), {"reason": "fogged"}, follow=True)

    assert f"Plate {plate.number} is in its owner's hands" in " ".join(refusal(response).split()).replace(
        "’", "'"
    )


@pytest.mark.parametrize("page", ["pour", "press", "spoil"])
@pytest.mark.parametrize("row", [0, 999, HUGE])
def test_what_is_not_there_cannot_be_pressed(photographer, slot, page, row):
    response = photographer.post(
        reverse(f"studio:{page}", args=[row]), {"stage": "poured", "reason": "fogged"}
    )

    assert response.status_code == 404


@pytest.mark.parametrize("page", ["day", "run_sheet", "plan_day"])
@pytest.mark.parametrize("row", [0, 999, HUGE])
def test_a_day_that_is_not_there_is_not_found(photographer, day, page, row):
    assert photographer.get(reverse(f"studio:{page}", args=[row])).status_code == 404


def test_without_any_day_the_photographer_is_led_to_the_planner(photographer):
    assert photographer.get(reverse("studio:today")).url == reverse("studio:planner")


def test_a_name_is_shown_as_it_is_and_never_as_markup(photographer, day):
    builders.a_paid_order(day, name="<script>alert(1)</script> & O'Hara")

    response = photographer.get(reverse("studio:day", args=[day.pk]))

    assert "<script>" not in response.content.decode()
    assert "<script>alert(1)</script> & O'Hara" in Page(response).text
