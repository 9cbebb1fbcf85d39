"""Batches as they are written down at the shelf."""

from datetime import date, timedelta

import pytest
from django.urls import reverse

from plates.ledger.services import events as ledger
from plates.store.models import Batch, StoreRoom, Supply, SupplyEvent
from tests.builders import NOW

pytestmark = pytest.mark.django_db

TODAY = NOW.date()


def fields(**changes):
    return {
        "recipe": "bath_wall",
        "made": "1000",
        "mixed_on": str(TODAY),
        "label": "Bath one",
        "draw": "on",
    } | changes


def mix(photographer, **changes):
    return photographer.post(reverse("plates:mix"), fields(**changes))


def a_batch(photographer, **changes):
    mix(photographer, **changes)
    return Batch.objects.get()


def words(answer):
    return " ".join(answer.content.decode().split())


def test_a_bath_is_written_down_with_what_went_in(photographer):
    bath = a_batch(photographer)

    # R2 of trade-facts s.5: 68.418 g/L by the imperial ounce (C).
    assert (bath.kind, bath.made_ul, bath.silver_mg) == ("bath", 1_000_000, 68_418)
    assert [line["name"] for line in bath.contents] == ["silver nitrate", "potassium iodide", "water"]
    assert (bath.ripe_from, bath.best_before, bath.mixed_at) == (TODAY, None, NOW)


def test_a_collodion_ripens_and_passes_by_the_figures_of_its_kind(photographer):
    collodion = a_batch(photographer, recipe="iodised_estabrooke_27", label="", mixed_on="2026-11-10")

    # A week to ripen and 182 days at its best: plates.chemistry.stock.shelf (Wilkinson, A).
    assert (collodion.ripe_from, collodion.best_before) == (date(2026, 11, 17), date(2027, 5, 11))
    assert collodion.label == "C 1"


def test_a_batch_is_dated_by_the_day_at_the_studio_wherever_that_is(photographer, clock):
    # At 20:00 UTC it is tomorrow already in Auckland.
    clock.move_to(NOW.replace(hour=20))

    assert a_batch(photographer, mixed_on="2026-11-21").mixed_at == NOW.replace(hour=20)


def test_a_label_left_empty_gets_the_next_number(photographer):
    mix(photographer, recipe="fixer_hunt", label="F 6")

    mix(photographer, recipe="fixer_hunt", label="")

    assert Batch.objects.filter(label="F 7").exists()


def test_what_was_bought_needs_no_recipe(photographer):
    varnish = a_batch(photographer, recipe="", kind="varnish", label="V 1", made="250.5")

    assert (varnish.made_ul, varnish.contents, varnish.recipe_name) == (250_500, [], "")


def test_what_goes_in_is_taken_from_the_shelf_that_holds_it(photographer):
    silver = Supply.objects.create(
        name="Silver nitrate", kind="chemical", unit="mg", substance="silver_nitrate", pack=100_000
    )

    bath = a_batch(photographer)

    used = SupplyEvent.objects.get()
    assert (used.supply, used.kind, used.amount, used.batch) == (silver, "used", 68_418, bath)


def test_nothing_is_taken_from_the_shelf_unless_it_is_asked_for(photographer):
    Supply.objects.create(
        name="Silver nitrate", kind="chemical", unit="mg", substance="silver_nitrate", pack=1
    )

    a_batch(photographer, draw="")

    assert not SupplyEvent.objects.exists()


def test_cyanide_is_not_mixed_until_it_is_switched_on(photographer):
    answer = mix(photographer, recipe="fixer_photo_cyanide")
    assert "Cyanide is switched off" in words(answer)
    assert not Batch.objects.exists()

    StoreRoom.objects.create(pk=1, cyanide_on=True)
    mix(photographer, recipe="fixer_photo_cyanide")

    assert Batch.objects.get().kind == "fixer"


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"recipe": ""}, "Choose a recipe, or say what kind of solution it is."),
        ({"made": "0"}, "greater than or equal to 0.001"),
        ({"mixed_on": "2026-11-21"}, "written down when it was mixed, not before"),
        ({"ripe_from": "2026-11-19"}, "not ripe before it was mixed"),
        ({"best_before": "2026-11-20"}, "past its best after it is ripe"),
        ({"recipe": "fixer_hunt", "silver": "5"}, "Only a silver bath is made with silver nitrate."),
        ({"recipe": "ferrotype_practical_1005"}, "How much alcohol is not known"),
        ({"recipe": "", "kind": "bath", "made": "10", "silver": "11"}, "does not dissolve in that volume"),
    ],
)
def test_what_is_no_batch_is_refused_in_words(photographer, changes, sentence):
    answer = mix(photographer, **changes)

    assert answer.status_code == 400
    assert sentence in words(answer)


def test_a_label_that_is_taken_is_refused_in_words(photographer):
    mix(photographer)

    assert "Another batch is called Bath one." in words(mix(photographer))


def move(photographer, batch, kind, amount):
    return photographer.post(reverse("plates:batch_move", args=[batch.pk]), {"kind": kind, "amount": amount})


def test_what_is_left_is_the_last_count_less_what_was_taken_since(photographer):
    batch = a_batch(photographer, recipe="fixer_hunt")
    for kind, amount in (("taken", "300"), ("counted", "650"), ("taken", "200.5"), ("added", "50")):
        move(photographer, batch, kind, amount)

    answer = photographer.get(reverse("plates:batch", args=[batch.pk]))

    assert "500 mL of 1000 mL" in words(answer)


def test_more_taken_than_was_there_asks_for_a_count(photographer):
    batch = a_batch(photographer, recipe="fixer_hunt")

    move(photographer, batch, "taken", "1100")

    assert "100 mL more was taken than was there: measure it." in words(
        photographer.get(reverse("plates:batch", args=[batch.pk]))
    )


def test_a_button_that_is_pressed_twice_is_one_press(photographer, clock):
    batch = a_batch(photographer, recipe="fixer_hunt")
    for seconds in (0, 2, 30):
        clock.move_to(NOW + timedelta(seconds=seconds))
        move(photographer, batch, "taken", "100")

    assert [event.amount_ul for event in batch.events.all()] == [100_000, 100_000]


def test_taking_nothing_is_refused_in_words(photographer):
    batch = a_batch(photographer)

    assert "Nothing was taken or added" in words(move(photographer, batch, "taken", "0"))


def test_the_days_of_a_batch_are_set_anew(photographer):
    batch = a_batch(photographer, recipe="iodised_estabrooke_27")
    days = {"ripe_from": "2026-11-21", "best_before": "2027-01-01", "opened_on": "2026-11-22"}

    photographer.post(reverse("plates:batch_days", args=[batch.pk]), days)

    batch.refresh_from_db()
    assert (batch.ripe_from, batch.opened_on) == (date(2026, 11, 21), date(2026, 11, 22))


def test_days_out_of_order_are_refused(photographer):
    batch = a_batch(photographer)
    days = {"ripe_from": "2026-11-21", "best_before": "2026-11-21"}

    assert photographer.post(reverse("plates:batch_days", args=[batch.pk]), days).status_code == 400


def test_a_batch_that_is_no_more_takes_no_further_word(photographer):
    batch = a_batch(photographer)
    photographer.post(reverse("plates:batch_end", args=[batch.pk]), {"why": "used_up"})

    answer = move(photographer, batch, "taken", "1")

    assert answer.status_code == 409
    assert "Bath one ended on 2026-11-20" in words(answer)
    assert "Batches that are no more" in words(photographer.get(reverse("plates:store")))


def test_what_stands_on_the_shelf_is_offered_where_a_plate_is_noted(photographer, slot):
    mix(photographer)
    plate = ledger.pour(slot_id=slot.pk, operator=None, now=NOW)

    page = photographer.get(reverse("plates:plate", args=[plate.number])).content.decode()

    assert '<datalist id="labels-bath"><option value="Bath one"></option></datalist>' in page
    assert 'list="labels-bath"' in page


def test_the_shelf_says_how_each_batch_stands_today(photographer):
    mix(photographer, recipe="iodised_estabrooke_27", label="fresh")
    mix(photographer, recipe="developer_towler", label="old", mixed_on="2026-11-01")
    mix(photographer, recipe="fixer_hunt", label="good")

    answer = words(photographer.get(reverse("plates:store")))

    assert [word in answer for word in ("Ripening", "Past its best", "Ready")] == [True] * 3
