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


def a_move(**facts):
    BatchEvent.objects.create(batch=a_batch(), amount_ul=0, at=NINE, **facts)


def a_reading(**facts):
    BathReading.objects.create(batch=a_batch(), at=NINE, **facts)


def a_care(**facts):
    BathCare.objects.create(batch=a_batch(), at=NINE, **facts)


def an_event(**facts):
    SupplyEvent.objects.create(supply=a_supply(), at=NINE, on=TODAY, **facts)


def figures(**facts):
    StoreRoom.objects.create(**({"pk": 1} | facts))


def a_recipe(**facts):
    OwnRecipe.objects.create(name="None", kind="fixer", lines=[], **facts)


@pytest.mark.parametrize(
    ("row", "facts", "rule"),
    [
        (a_batch, {"made_ul": 0}, "batch_has_volume"),
        (a_batch, {"ripe_from": date(2026, 11, 19)}, "batch_days_in_order"),
        (a_batch, {"best_before": TODAY}, "batch_days_in_order"),
        (a_batch, {"opened_on": date(2026, 11, 19)}, "batch_opened_after_mixing"),
        (a_batch, {"kind": "fixer", "silver_mg": 1}, "batch_silver_of_a_bath"),
        (a_batch, {"ended_at": NINE}, "batch_end_has_reason"),
        (a_batch, {"ended_why": "used_up"}, "batch_end_has_reason"),
        (a_move, {"kind": "taken"}, "batch_event_moves_something"),
        (a_move, {"kind": "added"}, "batch_event_moves_something"),
        (a_reading, {}, "reads_something"),
        (a_reading, {"gravity_e4": 10640}, "float_whole"),
        (a_reading, {"ph_hundredths": 400, "scale": "20/20"}, "float_whole"),
        (a_reading, {"ph_hundredths": 400, "celsius_tenths": 200, "scale": "20/20"}, "float_whole"),
        (a_reading, {"grains_tenths": 400}, "grains_whole"),
        (a_reading, {"ph_hundredths": 400, "ounce": "us_ounce"}, "grains_whole"),
        (a_reading, {"titrant_ul": 1000}, "titration_whole"),
        (a_reading, {"titrant_ul": 1000, "sample_ul": 0, "titrant_mmol_l": 100}, "titration_whole"),
        (a_reading, {"ph_hundredths": 1401}, "reading_possible"),
        (a_reading, {"volume_ul": 0}, "reading_possible"),
        (a_care, {"kind": "in_use"}, "at_a_bench"),
        (a_care, {"kind": "salt"}, "salt_weighed"),
        (a_care, {"kind": "filtered", "salt_mg": 1}, "salt_weighed"),
        (a_care, {"kind": "water"}, "poured_measured"),
        (a_care, {"kind": "stock", "stock_mg_l": 300_000}, "poured_measured"),
        (a_care, {"kind": "sunned", "poured_ul": 1}, "poured_measured"),
        (a_care, {"kind": "stock", "poured_ul": 1}, "stock_strength"),
        (a_care, {"kind": "water", "poured_ul": 1, "stock_mg_l": 1}, "stock_strength"),
        (a_supply, {"pack": 0}, "pack_holds_something"),
        (a_supply, {"unit": "piece"}, "measured_by_kind"),
        (a_supply, {"kind": "case", "unit": "piece"}, "measured_by_kind"),
        (a_supply, {"kind": "blank", "unit": "piece", "substance": ""}, "blank_has_size"),
        (an_event, {"kind": "received"}, "moves_something"),
        (an_event, {"kind": "opened", "amount": 1}, "moves_something"),
        (an_event, {"kind": "opened"}, "seen_of_a_container"),
        (an_event, {"kind": "tested"}, "seen_of_a_container|test_has_finding"),
        (an_event, {"kind": "used", "amount": 1, "peroxide_tenths_ppm": 1}, "test_has_finding"),
        (an_event, {"kind": "used", "amount": 1, "cost": 1}, "cost_of_what_came"),
        (figures, {"pk": 2}, "store_room_one_row"),
        (figures, {"stop_below_mg_l": 81_000}, "store_room_strengths"),
        (figures, {"warn_below_mg_l": 91_000}, "store_room_strengths"),
        (figures, {"ph_least_hundredths": 501}, "store_room_acidity"),
        (a_recipe, {"makes_ul": 0}, "own_recipe_makes_something"),
    ],
)
def test_the_database_holds_no_impossible_row(row, facts, rule):
    refused(lambda: row(**facts), rule)


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
    refused(a_batch().delete, "A batch is never deleted")


def test_a_container_is_opened_once():
    supply = a_supply()
    can = SupplyEvent.objects.create(supply=supply, kind="received", amount=5, at=NINE, on=TODAY)
    opened = {"supply": supply, "kind": "opened", "container": can, "at": NINE, "on": TODAY}
    SupplyEvent.objects.create(**opened)

    refused(lambda: SupplyEvent.objects.create(**opened), "supply_event_opened_once|container_id")


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
    refused(lambda: connection.cursor().execute(statement.format(table)), f"{table} is append-only")


def test_cyanide_is_refused_until_it_is_switched_on():
    assert StoreRoom().cyanide().switched_on is False
