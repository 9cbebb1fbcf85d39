"""What is left in bottles, and what a plate takes by stock-takes. Amounts by hand from tests/builders/bottles.py."""

from datetime import UTC, date, datetime, timedelta
from fractions import Fraction

import pytest

from plates.bench.models import SpoiltReason, Stage
from plates.chemistry.stock.rates import PRIOR_CM2
from plates.ledger.services import events as ledger
from plates.store.models import BatchEvent
from plates.store.selectors import bottles, own_rates
from tests import builders
from tests.builders import NOW
from tests.builders.bottles import HALF_UL, a_batch, a_day_of_halves, counted, sold

pytestmark = pytest.mark.django_db

LATER = NOW + timedelta(hours=2)
HALF_CM2 = Fraction("107.95") * Fraction("139.7") / 100
TABLE = Fraction("0.03") * 1000


def left(ul_a_cm2=TABLE, now=LATER):
    found = bottles.batches(kinds=["collodion"], now=now).get("collodion", [])
    return [each.left for each in bottles.on_hand(kind="collodion", found=found, ul_a_cm2=ul_a_cm2)]


def poured(plates=1, at=NOW + timedelta(hours=1), number=0, day=None):
    """Half plates poured at an hour; what was promised for them is begun."""
    job = sold(day or a_day_of_halves(), number, plates=plates)
    return [ledger.pour(slot_id=slot.pk, now=at, operator=None) for slot in job.slots.all()]


def test_a_new_bottle_holds_what_was_made():
    a_batch(20)

    assert left() == [20_000]


def test_a_count_is_the_truth_from_then_on():
    batch = a_batch(20)
    counted(batch, 3, kind=BatchEvent.Kind.TAKEN, at=NOW - timedelta(days=2))
    counted(batch, 12)
    counted(batch, 5, kind=BatchEvent.Kind.ADDED, at=LATER)
    counted(batch, 2, kind=BatchEvent.Kind.TAKEN, at=LATER)

    assert left() == [15_000]


def test_plates_poured_since_the_count_are_taken_off():
    a_batch(20)
    poured(plates=2)

    # By hand: 2 × 150.806 cm² × 0.03 mL are 9.0484 mL.
    assert left() == [20_000 - 9_049]


def test_what_was_written_down_as_taken_is_not_taken_off_twice():
    batch = a_batch(20)
    poured(plates=2)
    counted(batch, 10, kind=BatchEvent.Kind.TAKEN, at=LATER)

    assert left() == [10_000]


def test_a_plate_that_never_was_poured_takes_nothing():
    a_batch(20)
    [plate] = poured()
    ledger.spoil(plate_id=plate.pk, reason=SpoiltReason.MISTAKE, now=LATER, operator=None, note="")

    assert left() == [20_000]


def test_plates_are_laid_to_the_ripe_bottle_that_keeps_least():
    a_batch(20, label="keeps", best_before=date(2027, 6, 1))
    a_batch(20, label="first", best_before=date(2027, 3, 1))
    a_batch(20, label="unripe", ripe_from=date(2026, 12, 24), best_before=date(2027, 1, 1))
    poured()

    assert sorted(left()) == [20_000 - HALF_UL, 20_000, 20_000]
    assert left()[1] == 20_000 - HALF_UL


def test_a_bottle_that_has_ended_holds_nothing():
    a_batch(20, ended_at=NOW, ended_why="used_up")

    assert left() == []


def test_batches_of_more_than_a_year_ago_are_forgotten():
    a_batch(20, mixed_on=date(2025, 1, 5))

    assert bottles.batches(kinds=["collodion"], now=NOW) == {}


def rate(kind="collodion"):
    return own_rates.rate(kind=kind, found=bottles.batches(kinds=[kind], now=LATER).get(kind, []))


def test_without_a_stock_take_a_plate_takes_what_the_table_says():
    a_batch(20)

    assert rate().ml_a_cm2 == Fraction("0.03")


def test_a_stock_take_teaches_what_a_plate_takes_here():
    batch = a_batch(20)
    poured(plates=2)
    counted(batch, 8, at=LATER)

    # By hand: 12 mL for 2 × 150.806 cm², averaged by area with the table's 0.03 for PRIOR_CM2.
    area = 2 * HALF_CM2
    assert rate().ml_a_cm2 == (PRIOR_CM2 * Fraction("0.03") + 12) / (PRIOR_CM2 + area)
    assert rate().learned_from_cm2 == area


def test_a_stock_take_teaches_nothing_while_two_bottles_are_open():
    batch = a_batch(20)
    a_batch(20, label="C 2")
    poured(plates=2)
    counted(batch, 8, at=LATER)

    assert rate().learned_from_cm2 == 0


def test_a_fixer_is_reckoned_by_the_printed_area():
    # Darkroom Cookbook, 3rd edition, p. 108 (B): 10 000 cm² a litre, a tenth of a millilitre for each cm².
    assert rate("fixer").ml_a_cm2 == Fraction(1, 10)


def test_each_solution_is_taken_at_its_own_stage():
    from plates.store.selectors.poured_area import TAKEN_AT, cm2_made

    [plate] = poured()
    ledger.record_stage(plate_id=plate.pk, stage=Stage.SENSITISED, now=LATER, operator=None)

    whole_day = [(datetime(2026, 11, 1, tzinfo=UTC), None)]
    assert cm2_made(kind="bath", whiles=whole_day) == [HALF_CM2]
    assert cm2_made(kind="developer", whiles=whole_day) == [0]
    assert set(TAKEN_AT) == {"collodion", "bath", "developer", "fixer", "varnish"}
    assert builders.a_size("half").area_cm2 == round(HALF_CM2, 2)
