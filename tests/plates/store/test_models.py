"""What the database itself holds of the store room, whatever code writes to it."""

from datetime import UTC, date, datetime

import pytest
from django.db import IntegrityError, connection, transaction

from plates.store.models import (
    Batch,
    BatchEvent,
    BathCare,
    BathReading,
    OwnRecipe,
    StoreRoom,
    Supply,
    SupplyEvent,
)
from tests import builders

pytestmark = pytest.mark.django_db

NINE = datetime(2026, 11, 20, 9, 0, tzinfo=UTC)
TODAY = NINE.date()


def a_batch(**changes):
    facts = {"kind": "bath", "label": "Bath one", "made_ul": 1_500_000, "mixed_at": NINE, "mixed_on": TODAY}
    return Batch.objects.create(**(facts | {"ripe_from": TODAY} | changes))


def a_supply(**changes):
    facts = {"name": "Ether", "kind": "chemical", "unit": "ul", "substance": "ether", "pack": 1_000_000}
    return Supply.objects.create(**(facts | changes))


def refused(save, words):
    """Assert that the database refuses what `save` does, for the rule that is called `words`."""
    with pytest.raises(IntegrityError, match=words), transaction.atomic():
        save()


@pytest.mark.parametrize(
    ("changes", "rule"),
    [
        ({"made_ul": 0}, "batch_has_volume"),
        ({"ripe_from": date(2026, 11, 19)}, "batch_days_in_order"),
        ({"best_before": TODAY}, "batch_days_in_order"),
        ({"opened_on": date(2026, 11, 19)}, "batch_opened_after_mixing"),
        ({"kind": "fixer", "silver_mg": 1}, "batch_silver_of_a_bath"),
        ({"ended_at": NINE}, "batch_end_has_reason"),
        ({"ended_why": "used_up"}, "batch_end_has_reason"),
    ],
    ids=[
        "nothing",
        "ripe before mixed",
        "past before ripe",
        "opened before mixed",
        "silver",
        "no reason",
        "no end",
    ],
)
def test_the_database_holds_no_impossible_batch(changes, rule):
    refused(lambda: a_batch(**changes), rule)


def test_two_bottles_never_have_one_label():
    a_batch()

    refused(a_batch, "label")


@pytest.mark.parametrize(
    "change",
    [{"made_ul": 1}, {"kind": "fixer"}, {"contents": ["more"]}, {"silver_mg": 1}, {"label": "Bath two"}],
    ids=["volume", "kind", "contents", "silver", "label"],
)
def test_what_was_mixed_stays_as_it_was_written_down(change):
    batch = a_batch()

    refused(lambda: Batch.objects.filter(pk=batch.pk).update(**change), "What was mixed stays as it was")


def test_days_and_end_of_a_batch_may_be_written_down_later():
    batch = a_batch()

    Batch.objects.filter(pk=batch.pk).update(opened_on=TODAY, ended_at=NINE, ended_why="discarded")

    assert Batch.objects.get().ended_why == "discarded"


def test_a_batch_is_never_deleted():
    batch = a_batch()

    with pytest.raises(IntegrityError, match="A batch is never deleted"), transaction.atomic():
        batch.delete()


@pytest.mark.parametrize("kind", ["taken", "added"])
def test_nothing_is_taken_or_added_by_no_event(kind):
    batch = a_batch()

    refused(
        lambda: BatchEvent.objects.create(batch=batch, kind=kind, amount_ul=0, at=NINE),
        "batch_event_moves_something",
    )


@pytest.mark.parametrize(
    ("facts", "rule"),
    [
        ({}, "reads_something"),
        ({"gravity_e4": 10640}, "float_whole"),
        ({"ph_hundredths": 400, "scale": "20/20"}, "float_whole"),
        ({"ph_hundredths": 400, "celsius_tenths": 200, "scale": "20/20"}, "float_whole"),
        ({"grains_tenths": 400}, "grains_whole"),
        ({"ph_hundredths": 400, "ounce": "us_ounce"}, "grains_whole"),
        ({"titrant_ul": 1000}, "titration_whole"),
        ({"titrant_ul": 1000, "sample_ul": 0, "titrant_mmol_l": 100}, "titration_whole"),
        ({"ph_hundredths": 1401}, "reading_possible"),
        ({"volume_ul": 0}, "reading_possible"),
    ],
    ids=[
        "nothing",
        "float alone",
        "scale alone",
        "warmth alone",
        "grains alone",
        "ounce alone",
        "titrant alone",
        "no sample",
        "pH above 14",
        "no volume",
    ],
)
def test_the_database_holds_no_half_reading(facts, rule):
    bath = a_batch()

    refused(lambda: BathReading.objects.create(batch=bath, at=NINE, **facts), rule)


@pytest.mark.parametrize(
    ("facts", "rule"),
    [
        ({"kind": "in_use"}, "at_a_bench"),
        ({"kind": "salt"}, "salt_weighed"),
        ({"kind": "filtered", "salt_mg": 1}, "salt_weighed"),
        ({"kind": "water"}, "poured_measured"),
        ({"kind": "stock", "stock_mg_l": 300_000}, "poured_measured"),
        ({"kind": "sunned", "poured_ul": 1}, "poured_measured"),
        ({"kind": "stock", "poured_ul": 1}, "stock_strength"),
        ({"kind": "water", "poured_ul": 1, "stock_mg_l": 1}, "stock_strength"),
    ],
    ids=[
        "no bench",
        "salt not weighed",
        "salt while filtering",
        "water not measured",
        "stock not measured",
        "poured sun",
        "stock unknown",
        "strong water",
    ],
)
def test_the_database_holds_no_half_care(facts, rule):
    bath = a_batch()

    refused(lambda: BathCare.objects.create(batch=bath, at=NINE, **facts), rule)


@pytest.mark.parametrize(
    ("changes", "rule"),
    [
        ({"pack": 0}, "pack_holds_something"),
        ({"unit": "piece"}, "measured_by_kind"),
        ({"kind": "case", "unit": "piece"}, "measured_by_kind"),
        ({"kind": "blank", "unit": "piece", "substance": ""}, "blank_has_size"),
    ],
    ids=["empty pack", "counted chemical", "hazardous case", "blank without size"],
)
def test_the_database_holds_no_impossible_supply(changes, rule):
    refused(lambda: a_supply(**changes), rule)


@pytest.mark.parametrize(
    ("facts", "rule"),
    [
        ({"kind": "received"}, "moves_something"),
        ({"kind": "opened", "amount": 1}, "moves_something"),
        ({"kind": "opened"}, "seen_of_a_container"),
        ({"kind": "tested"}, "seen_of_a_container|test_has_finding"),
        ({"kind": "used", "amount": 1, "peroxide_tenths_ppm": 1}, "test_has_finding"),
        ({"kind": "used", "amount": 1, "cost": 1}, "cost_of_what_came"),
    ],
    ids=["nothing came", "opened an amount", "opened nothing", "tested nothing", "finding", "cost of use"],
)
def test_the_database_holds_no_half_event_of_a_supply(facts, rule):
    supply = a_supply()

    refused(lambda: SupplyEvent.objects.create(supply=supply, at=NINE, on=TODAY, **facts), rule)


def test_a_container_is_opened_once():
    supply = a_supply()
    can = SupplyEvent.objects.create(supply=supply, kind="received", amount=5, at=NINE, on=TODAY)
    opened = {"supply": supply, "kind": "opened", "container": can, "at": NINE, "on": TODAY}
    SupplyEvent.objects.create(**opened)

    refused(lambda: SupplyEvent.objects.create(**opened), "supply_event_opened_once|container_id")


@pytest.mark.parametrize(
    ("changes", "rule"),
    [
        ({"pk": 2}, "store_room_one_row"),
        ({"stop_below_mg_l": 81_000}, "store_room_strengths"),
        ({"warn_below_mg_l": 91_000}, "store_room_strengths"),
        ({"ph_least_hundredths": 501}, "store_room_acidity"),
    ],
    ids=["second row", "stop above warn", "warn above target", "pH"],
)
def test_the_database_holds_no_impossible_figures(changes, rule):
    refused(lambda: StoreRoom.objects.create(**({"pk": 1} | changes)), rule)


def test_a_recipe_makes_more_than_nothing():
    refused(
        lambda: OwnRecipe.objects.create(name="None", kind="fixer", lines=[], makes_ul=0),
        "own_recipe_makes_something",
    )


@pytest.fixture
def ledgers():
    """A row in every ledger of the store room."""
    bath, supply, bench = a_batch(), a_supply(), builders.a_bench()
    BatchEvent.objects.create(batch=bath, kind="taken", amount_ul=5, at=NINE)
    BathReading.objects.create(batch=bath, at=NINE, ph_hundredths=400)
    BathCare.objects.create(batch=bath, at=NINE, kind="in_use", bench=bench)
    SupplyEvent.objects.create(supply=supply, kind="received", amount=5, at=NINE, on=TODAY)


@pytest.mark.parametrize(
    "table", ["plates_batchevent", "plates_bathreading", "plates_bathcare", "plates_supplyevent"]
)
@pytest.mark.parametrize("statement", ["UPDATE {} SET note = 'not so'", "DELETE FROM {}"])
def test_no_row_of_these_ledgers_is_changed_or_deleted(ledgers, table, statement):
    with (
        pytest.raises(IntegrityError, match=f"{table} is append-only"),
        transaction.atomic(),
        connection.cursor() as cursor,
    ):
        cursor.execute(statement.format(table))


def test_cyanide_is_refused_until_it_is_switched_on():
    assert StoreRoom().cyanide().switched_on is False
