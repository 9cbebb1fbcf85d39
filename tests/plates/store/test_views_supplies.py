"""Supplies as they are written down at the shelf, and ether that must be tested or thrown away."""

import pytest
from django.urls import reverse

from plates.store.models import Supply, SupplyEvent
from tests import builders
from tests.builders.store import a_supply

pytestmark = pytest.mark.django_db

ETHER = {
    "name": "Ether", "kind": "chemical", "unit": "ul", "pack": "1000", "pack_cost": "4000", "least": "500",
    "substance": "ether", "size": "", "pieces_a_plate": "0", "kept": "on",
}  # fmt: skip


def words(answer):
    return " ".join(answer.content.decode().split())


def page(supply):
    return reverse("plates:supply", args=[supply.pk])


def move(photographer, supply, **fields):
    facts = {"kind": "received", "amount": "1000", "on": "2026-11-20"}
    return photographer.post(reverse("plates:supply_move", args=[supply.pk]), facts | fields)


def see(photographer, supply, container, **fields):
    facts = {"seen": "opened", "of": container.pk, "day": "2026-11-20"}
    return photographer.post(reverse("plates:supply_seen", args=[supply.pk]), facts | fields)


def a_can(photographer, on="2026-11-20"):
    supply = a_supply()
    move(photographer, supply, label="E 7", on=on)
    return supply, SupplyEvent.objects.get()


def test_a_supply_is_written_down_in_small_units(photographer):
    photographer.post(reverse("plates:new_supply"), ETHER)

    ether = Supply.objects.get()
    assert (ether.unit, ether.pack, ether.least, ether.pack_cost) == ("ul", 1_000_000, 500_000, 4000)


def test_a_supply_is_changed_and_no_longer_bought(photographer):
    ether = a_supply()
    change = reverse("plates:change_supply", args=[ether.pk])
    assert 'value="1000"' in photographer.get(change).content.decode()

    photographer.post(change, ETHER | {"name": "Ether, anhydrous", "kept": ""})

    ether.refresh_from_db()
    assert (ether.name, ether.kept) == ("Ether, anhydrous", False)
    assert "No longer bought" in words(photographer.get(reverse("plates:supplies")))


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"unit": "piece"}, "Chemicals are weighed or measured, everything else is counted."),
        ({"pieces_a_plate": "1"}, "follows from its area: write 0"),
        ({"kind": "case", "unit": "piece"}, "Only chemicals have a row in that table."),
        ({"kind": "blank", "unit": "piece", "substance": ""}, "Bare plates are of one size"),
        ({"kind": "case", "unit": "piece", "substance": "", "pack": "1.5"}, "There is no part of a piece"),
        ({"pack": "0"}, "greater than or equal to 0.001"),
    ],
)
def test_what_is_no_supply_is_refused_in_words(photographer, changes, sentence):
    answer = photographer.post(reverse("plates:new_supply"), ETHER | changes)

    assert answer.status_code == 400
    assert sentence in words(answer)


def test_a_name_that_is_taken_and_a_unit_that_changed_are_refused_in_words(photographer):
    ether, _ = a_can(photographer)
    assert "Another supply is called Ether." in words(photographer.post(reverse("plates:new_supply"), ETHER))

    answer = photographer.post(reverse("plates:change_supply", args=[ether.pk]), ETHER | {"unit": "mg"})

    assert "Its events are in another unit" in words(answer)


def test_the_level_is_the_last_count_with_what_came_and_less_what_went(photographer):
    ether, _ = a_can(photographer)
    for kind, amount in (("used", "250"), ("counted", "700"), ("received", "1000"), ("discarded", "100.5")):
        move(photographer, ether, kind=kind, amount=amount)

    assert "<dd>1600 mL" in words(photographer.get(page(ether)))


def test_a_delivery_that_is_sent_twice_came_once(photographer):
    ether, _ = a_can(photographer)

    move(photographer, ether, label="E 7")

    assert SupplyEvent.objects.count() == 1


@pytest.mark.parametrize(
    ("fields", "sentence"),
    [
        ({"amount": "0"}, "only a count may find nothing"),
        ({"on": "2026-11-21"}, "written down when it has happened"),
        ({"kind": "used", "cost": "5"}, "Only what is received costs something."),
    ],
)
def test_what_did_not_happen_is_refused_in_words(photographer, fields, sentence):
    answer = move(photographer, a_supply(), **fields)

    assert answer.status_code == 400
    assert sentence in words(answer)


def test_half_a_bare_plate_is_refused_in_words(photographer):
    facts = {"kind": "blank", "unit": "piece", "substance": "", "pack": 10, "pieces_a_plate": 1}
    bare = a_supply("Bare plates", size=builders.a_size(), **facts)

    assert "There is no part of a piece" in words(move(photographer, bare, amount="1.5"))


@pytest.mark.parametrize(
    ("seen", "sentence"),
    [
        ({}, "Test it or throw it away by 2026-12-01."),
        ({"seen": "unsound", "day": "2026-06-10"}, "Never open or move a can"),
        ({"seen": "tested", "day": "2026-11-20", "peroxide": "5"}, "Test it or throw it away by 2027-05-20."),
        (
            {"seen": "tested", "day": "2026-11-20", "peroxide": "30"},
            "30.0 ppm of peroxide: do not use or heat it",
        ),
        ({"seen": "tested", "day": "2026-11-20", "peroxide": "100"}, "do not open or move it"),
    ],
)
def test_opened_ether_says_when_it_is_to_be_tested(photographer, seen, sentence):
    """Six months after opening: university safety offices' pages (A), see plates.chemistry.hazards.ether."""
    ether, can = a_can(photographer, on="2026-05-20")
    see(photographer, ether, can, day="2026-06-01")

    see(photographer, ether, can, **seen)

    assert sentence in words(photographer.get(page(ether)))


def test_ether_past_its_test_is_told_of_above_all_supplies(photographer):
    ether, can = a_can(photographer, on="2026-01-10")
    see(photographer, ether, can, day="2026-02-01")

    answer = words(photographer.get(reverse("plates:supplies")))

    assert "Since 2026-08-01 it must be tested for peroxides or thrown away" in answer


def test_a_can_that_went_to_the_waste_is_no_longer_judged(photographer):
    ether, can = a_can(photographer, on="2025-01-10")

    move(photographer, ether, kind="discarded", amount="1000", container=can.pk)

    answer = words(photographer.get(reverse("plates:supplies")))
    assert "must be tested" not in answer
    assert "0 mL" in answer


@pytest.mark.parametrize(
    ("fields", "sentence"),
    [
        ({"day": "2026-11-19"}, "That day lies before it was received or opened"),
        ({"seen": "tested"}, "A test for peroxide needs what was found"),
        ({"day": "2026-11-21"}, "written down when it has happened"),
        ({"of": 0}, "Select a valid choice"),
    ],
)
def test_what_was_not_seen_is_refused_in_words(photographer, fields, sentence):
    ether, can = a_can(photographer)

    answer = see(photographer, ether, can, **fields)

    assert answer.status_code == 400
    assert sentence in words(answer)


def test_a_can_is_opened_once(photographer):
    ether, can = a_can(photographer)
    see(photographer, ether, can)

    assert "This container was opened already." in words(see(photographer, ether, can))


def test_the_shopping_list_and_the_costs_are_shown_with_money(photographer):
    builders.a_paid_order(builders.a_day())
    facts = {"kind": "blank", "unit": "piece", "substance": "", "pack": 10, "pack_cost": 1000}
    a_supply("Bare quarters", size=builders.a_size(), pieces_a_plate=1, **facts)

    assert "Bare quarters: 1 pack of 10</th><td>€10.00" in words(photographer.get(reverse("plates:shopping")))
    assert "€1.00" in words(photographer.get(reverse("plates:costs")))
