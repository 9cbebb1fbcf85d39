"""For how many plates a day has collodion, beside how many it needs; amounts by hand from tests/builders/bottles.py."""

from datetime import date, timedelta

import pytest

from plates.budgets.levels_of_day import DayLevel, NotCounted, levels_of_day, short_of
from plates.ledger.services import events as ledger
from plates.templatetags.store_words import level_words, longest, not_counted, takes_words
from tests.builders import NOW, SATURDAY
from tests.builders.bottles import HALF_UL, a_batch, a_day_of_halves, counted, sold

pytestmark = pytest.mark.django_db


def level(day):
    [found] = levels_of_day(day=day, now=NOW)
    return found


def test_a_day_that_needs_more_than_there_is_says_so():
    day = a_day_of_halves()
    batch = a_batch(500)
    for number in range(6):
        sold(day, number)
    counted(batch, 4 * HALF_UL / 1000)

    found = level(day)

    assert (found.enough_for, found.needed, found.short) == (4, 6, True)
    assert level_words(found, SATURDAY) == "collodion for 4 half plates, Saturday needs 6"
    assert longest(found) == 6


def test_plates_made_again_are_in_what_a_day_needs():
    # With six plates three are spoilt at most on nine days of ten: SciPy, nbinom.ppf(0.9, 6, 0.85).
    day = a_day_of_halves(retake_chance=15)
    a_batch(500)
    for number in range(6):
        sold(day, number)

    assert level(day).needed == 9


def test_what_days_before_need_comes_first():
    saturday, friday = a_day_of_halves(), a_day_of_halves(SATURDAY - timedelta(days=1))
    a_batch(10 * HALF_UL / 1000)
    for number in range(3):
        sold(friday, number)
    sold(saturday, 0)

    assert (level(friday).enough_for, level(saturday).enough_for) == (10, 7)


def test_a_bottle_that_is_not_ripe_or_past_its_best_is_named_and_not_counted():
    day = a_day_of_halves()
    a_batch(50, ripe_from=SATURDAY + timedelta(days=1))
    a_batch(30, label="C 2", best_before=SATURDAY)

    found = level(day)

    assert found.enough_for == 0
    assert [not_counted(each) for each in found.not_counted] == [
        "50 mL, ripe from 29 Nov",
        "30 mL past its best",
    ]


def test_what_a_plate_takes_is_told_with_who_says_so():
    day = a_day_of_halves()
    batch = a_batch(20)
    assert takes_words(level(day)) == "4.525 mL, by the table"
    job = sold(day, 0)
    ledger.pour(slot_id=job.slots.get().pk, now=NOW + timedelta(hours=1), operator=None)

    counted(batch, 14, at=NOW + timedelta(hours=2))

    [found] = levels_of_day(day=day, now=NOW + timedelta(hours=2))
    # By hand: 6 mL for one half plate, averaged with the table's 0.03 by area: (1800 × 0.03 + 6) / 1950.81 × 150.81.
    assert takes_words(found) == "4.639 mL, learned from 150 cm² of your own plates"


def test_the_days_ahead_that_are_short_are_named():
    saturday, friday = a_day_of_halves(), a_day_of_halves(SATURDAY - timedelta(days=1))
    batch = a_batch(500)
    sold(friday, 0), sold(saturday, 0)
    counted(batch, HALF_UL / 1000)

    found = short_of(days=[friday, saturday], now=NOW)

    assert {pk: [each.solution for each in short] for pk, short in found.items()} == {
        friday.pk: [], saturday.pk: ["Collodion"],
    }  # fmt: skip


def test_without_a_store_room_there_is_nothing_to_say():
    assert levels_of_day(day=a_day_of_halves(), now=NOW) == []


def test_an_empty_day_needs_nothing():
    day = a_day_of_halves()
    a_batch(10)

    assert level(day) == DayLevel("Collodion", "half", 2, 0, (), HALF_UL, 0)
    assert NotCounted(1, date(2026, 11, 29)).ripe_from == SATURDAY + timedelta(days=1)
