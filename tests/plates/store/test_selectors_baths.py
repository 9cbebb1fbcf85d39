"""A bath from its rows: which plates went through it, what it should hold now, what is due.

Strengths: the worked example of trade-facts s.4 (C) and the published titration of s.3 (B).
"""

from datetime import time, timedelta
from fractions import Fraction

import pytest

from plates.bench.models import PlateSlot, Stage
from plates.ledger.services import facts
from plates.ledger.services.facts import Noted
from plates.store.models import StoreRoom
from plates.store.selectors.baths import bath_in_use, state
from plates.store.services import baths
from plates.store.services.baths import Done, Reading
from tests import builders
from tests.builders import NOW
from tests.builders.store import a_bath

pytestmark = pytest.mark.django_db

ROOM = StoreRoom(pk=1)
HOUR = timedelta(hours=1)


@pytest.fixture
def day():
    return builders.a_day()


def plates(day, *, at=time(10), size="quarter", now=NOW):
    """Plates of one order that went through the bath at `now`."""
    order = builders.a_paid_order(day, at=at, sizes=(size,))
    [slot] = PlateSlot.objects.filter(job=order.sitting.bench_job)
    return builders.made_plate(slot, Stage.FIXED, now)


def put_to_use(bath, day, now=NOW - HOUR):
    baths.care(batch_id=bath.pk, done=Done("in_use", bench_id=day.bench_day.bench_id), operator=None, now=now)


def read(bath, now=NOW, **measured):
    return baths.record_reading(batch_id=bath.pk, reading=Reading(**measured), operator=None, now=now)


def held(bath, now=NOW + HOUR):
    return float(state(batch=bath, room=ROOM, now=now).book.bath.strength.grams_per_litre)


def through(bath, now=NOW + HOUR):
    return state(batch=bath, room=ROOM, now=now).book.plates


def test_plates_of_its_bench_go_through_the_bath_that_is_in_use_there(day):
    bath = a_bath(now=NOW - 2 * HOUR)
    put_to_use(bath, day)
    plates(day)

    found = state(batch=bath, room=ROOM, now=NOW + HOUR)

    # 89.11 cm² at 1.38 mg/cm² by the model at 90 g/L.
    assert (found.book.plates, found.book.carried["quarter"][0]) == (1, 1)
    assert float(found.book.carried["quarter"][1]) == pytest.approx(0.123, abs=0.001)


def test_plates_before_it_was_put_to_use_and_after_it_was_rested_are_not_its_own(day):
    bath = a_bath(now=NOW - 3 * HOUR)
    plates(day, now=NOW - 2 * HOUR)
    put_to_use(bath, day)
    baths.care(batch_id=bath.pk, done=Done("rested"), operator=None, now=NOW - HOUR / 2)
    plates(day, at=time(12))

    assert through(bath) == 0


def test_another_bath_put_to_the_same_bench_takes_over(day):
    first, second = (a_bath(label, now=NOW - 2 * HOUR) for label in ("Bath one", "Bath two"))
    put_to_use(first, day)
    put_to_use(second, day, now=NOW - HOUR / 2)
    plates(day)

    assert (through(first), through(second)) == (0, 1)


def test_a_plate_that_names_another_bath_went_through_that_one(day):
    first, second = (a_bath(label, now=NOW - 2 * HOUR) for label in ("Bath one", "Bath two"))
    put_to_use(first, day)
    plate = plates(day)

    facts.note(plate_id=plate.pk, noted=Noted(bath="bath TWO "), operator=None, now=NOW)

    assert (through(first), through(second)) == (0, 1)


def test_which_bath_stands_at_a_bench_is_known_for_any_time(day):
    bath, bench = a_bath(now=NOW - 2 * HOUR), day.bench_day.bench_id
    put_to_use(bath, day)
    baths.care(batch_id=bath.pk, done=Done("rested"), operator=None, now=NOW)

    times = (NOW - 2 * HOUR, NOW - HOUR, NOW)

    assert [bath_in_use(bench_id=bench, at=at) for at in times] == [None, bath, None]


def test_the_float_of_the_worked_example_is_read():
    bath = a_bath()

    read(bath, gravity_e4=10640, scale="20/20", celsius_tenths=200)

    assert held(bath) == pytest.approx(76.9, abs=0.1)


def test_a_titration_goes_before_a_float_and_says_that_they_differ():
    bath = a_bath()
    # 0.1 mol/L: 26.49 mL for 5 mL of a bath of 90 g/L (90 x 5 / 169.873 / 0.1).
    titrated = {"sample_ul": 5000, "titrant_ul": 26_490, "titrant_mmol_l": 100}

    read(bath, gravity_e4=10640, scale="20/20", celsius_tenths=200, **titrated)

    found = state(batch=bath, room=ROOM, now=NOW + HOUR)
    assert held(bath) == pytest.approx(90, abs=0.05)
    assert "The float reads lighter than the silver in the bath" in found.reads[0].warnings[0]


def test_what_the_book_said_stands_beside_what_was_measured():
    bath = a_bath()

    for now in (NOW, NOW + HOUR):
        read(bath, gravity_e4=10640, scale="20/20", celsius_tenths=200, now=now)

    said = [each.said.grams_per_litre for each in state(batch=bath, room=ROOM, now=NOW + HOUR).reads]
    assert [round(float(strength), 1) for strength in said] == [90.0, 76.9]


def test_grains_are_read_by_the_ounce_that_is_named():
    bath = a_bath()

    read(bath, grains_tenths=400, ounce="us_ounce")

    # 1 grain to the US ounce is 2.1911118 g/L (NIST Handbook 44, A).
    assert held(bath) == pytest.approx(87.64, abs=0.01)


def test_a_float_in_a_used_bath_is_said_to_mislead(day):
    bath = a_bath(now=NOW - 2 * HOUR)
    put_to_use(bath, day)
    plates(day)

    read(bath, gravity_e4=10640, scale="20/20", celsius_tenths=200, now=NOW + HOUR)

    [found] = state(batch=bath, room=ROOM, now=NOW + HOUR).reads
    assert "Plates have been in this bath" in found.warnings[0]


def test_salt_and_stock_bring_the_bath_of_the_worked_example_back():
    for done in (Done("salt", salt_mg=20_010), Done("stock", poured_ul=93_700, stock_mg_l=300_000)):
        bath = a_bath(f"Bath by {done.kind}", silver_mg=115_350)

        baths.care(batch_id=bath.pk, done=done, operator=None, now=NOW)

        assert held(bath) == pytest.approx(90, abs=0.05)


@pytest.mark.parametrize(
    ("silver_mg", "level", "sentence"),
    [
        (135_000, "good", "The bath holds 90.0 g/L."),
        (117_000, "soon", "strengthen it after this sitting"),
        (104_000, "stop", "strengthen it before the next plate"),
    ],
    ids=["good", "weak", "too weak"],
)
def test_a_weak_bath_says_what_is_to_be_done(silver_mg, level, sentence):
    found = state(batch=a_bath(silver_mg=silver_mg), room=ROOM, now=NOW)

    assert found.level == level
    assert sentence in found.cares[0].sentence


def test_care_is_due_by_plates_since_it_was_last_done(day):
    bath = a_bath(now=NOW - 2 * HOUR)
    put_to_use(bath, day)
    plates(day, size="whole")
    often = StoreRoom(pk=1, plates_to_filter=2, plates_to_sun=2, plates_to_test=100)
    # A whole plate of 356.45 cm² is 2.76 plates of 4×5 inches.
    due = [care.sentence for care in state(batch=bath, room=often, now=NOW + HOUR).cares]
    assert [sentence.partition(":")[0] for sentence in due[1:]] == [
        "Filter it", "Rest it in strong light, and work with the other bath",
    ]  # fmt: skip

    baths.care(batch_id=bath.pk, done=Done("filtered"), operator=None, now=NOW + HOUR)

    due = [care.sentence for care in state(batch=bath, room=often, now=NOW + HOUR).cares]
    assert [sentence.partition(":")[0] for sentence in due[1:]] == [
        "Rest it in strong light, and work with the other bath"
    ]


def test_an_acidity_out_of_bounds_says_what_to_add():
    bath = a_bath()
    read(bath, ph_hundredths=550)

    cares = state(batch=bath, room=ROOM, now=NOW).cares

    assert "plates may fog: add dilute acid drop by drop" in cares[-1].sentence


def test_a_bath_of_unknown_strength_is_known_by_its_first_reading():
    bath = a_bath(silver_mg=None)
    assert state(batch=bath, room=ROOM, now=NOW).book.bath is None

    read(bath, gravity_e4=10640, scale="20/20", celsius_tenths=200, volume_ul=1_400_000)

    assert held(bath) == pytest.approx(76.9, abs=0.1)
    assert state(batch=bath, room=ROOM, now=NOW).book.bath.millilitres == Fraction(1400)


def test_many_plates_take_no_more_queries_than_one(day, django_assert_num_queries):
    bath = a_bath(now=NOW - 2 * HOUR)
    put_to_use(bath, day)
    plates(day)

    with django_assert_num_queries(5):
        state(batch=bath, room=ROOM, now=NOW + HOUR)
