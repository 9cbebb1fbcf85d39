"""What the database itself holds, whatever code writes to it; and the same said in words before it comes to that."""

from datetime import UTC, datetime, timedelta

import pytest
from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction

from plates.bench.models import Bench, BenchDay, Plate, PlateEvent, PlateNumber, PlateSize, PlateSlot
from plates.ledger.services import events as ledger
from tests import builders

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)


def refused(save, words):
    """Assert that the database refuses what `save` does, for the rule that is called `words`."""
    with pytest.raises(IntegrityError, match=words), transaction.atomic():
        save()


@pytest.mark.parametrize(
    ("changes", "rule"),
    [
        ({"operators": 0}, "bench_has_places"),
        ({"tank_places": 0}, "bench_has_places"),
        ({"wash_places": 0}, "bench_has_places"),
        ({"sitters_at_once": 0}, "bench_has_places"),
        ({"sensitise_least": 6, "sensitise_most": 5}, "bench_bath_range"),
        ({"wash_least": 121, "wash_most": 120}, "bench_wash_range"),
    ],
)
def test_the_database_holds_no_impossible_bench(changes, rule):
    refused(lambda: Bench.objects.create(name="Tent", **changes), rule)


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"operators": 0}, "operators: must be from 1 to 20"),
        ({"sensitise_least": 6}, "The shortest bath cannot be longer than the longest."),
        ({"wash_most": 59}, "The shortest wash cannot be longer than the longest."),
        # Load, expose and develop take 5 minutes by the default timings.
        ({"wet_window": 4}, "must hold load, expose and develop together"),
    ],
)
def test_an_impossible_bench_is_refused_in_words(changes, sentence):
    bench = Bench(name="Tent", **changes)

    with pytest.raises(ValidationError) as refusal:
        bench.full_clean()

    assert sentence in " ".join(refusal.value.messages)


@pytest.mark.parametrize(
    ("changes", "rule"),
    [
        ({"closes_at": TEN}, "bench_day_hours"),
        ({"racks_empty_by": TEN + timedelta(hours=1)}, "bench_day_hours"),
        ({"start_every": 0}, "bench_day_grid"),
    ],
)
def test_the_database_holds_no_impossible_day(changes, rule):
    hours = {
        "opens_at": TEN,
        "closes_at": TEN + timedelta(hours=2),
        "racks_empty_by": TEN + timedelta(hours=3),
    }
    facts = {"bench": builders.a_bench(), "on": TEN.date()} | hours | changes

    refused(lambda: BenchDay.objects.create(**facts), rule)


@pytest.mark.parametrize(
    ("changes", "rule"),
    [({"width_mm": 0}, "plate_size_sides"), ({"wash_places": 0}, "plate_size_wash_places")],
)
def test_the_database_holds_no_impossible_size(changes, rule):
    facts = {"name": "Thin", "width_mm": "50", "height_mm": "60"} | changes

    refused(lambda: PlateSize.objects.create(**facts), rule)


def test_the_area_of_a_size_comes_from_its_sides():
    # A quarter plate is 3.25 x 4.25 inches, 89.11 square centimetres (trade facts, s.1).
    assert str(builders.a_size("quarter").area_cm2) == "89.11"


@pytest.fixture
def slot():
    order = builders.a_paid_order(builders.a_day())
    return PlateSlot.objects.get(job=order.sitting.bench_job_id)


def test_the_database_holds_one_live_plate_a_slot(slot):
    first = ledger.pour(slot_id=slot.pk, operator=None, now=TEN)

    def second():
        Plate.objects.create(number=first.number + 1, slot=slot, size=slot.size, stage_at=TEN)

    refused(second, "plate_one_live_per_slot|plates_plate.slot_id")


@pytest.mark.parametrize(
    "contradiction", [{"stage": "spoilt"}, {"stage": "poured", "spoilt_reason": "fogged"}]
)
def test_a_spoilt_plate_and_only_a_spoilt_plate_has_a_reason(slot, contradiction):
    plate = ledger.pour(slot_id=slot.pk, operator=None, now=TEN)

    refused(lambda: Plate.objects.filter(pk=plate.pk).update(**contradiction), "plate_spoilt_has_reason")


def test_a_plate_goes_through_a_stage_once(slot):
    plate = ledger.pour(slot_id=slot.pk, operator=None, now=TEN)

    refused(
        lambda: PlateEvent.objects.create(plate=plate, stage="poured", at=TEN),
        "plate_event_once|plates_plateevent.plate_id",
    )


def test_there_is_one_giver_of_plate_numbers():
    refused(lambda: PlateNumber.objects.create(pk=2), "plate_number_one_row")
