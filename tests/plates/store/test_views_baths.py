"""The page of a silver bath: written down what is measured and done, told what brings it back.

Doses: the worked example of trade-facts s.4 (C): 1.5 L at 76.9 g/L takes 20.0 g, or 93.7 mL at 300 g/L.
"""

import pytest
from django.urls import reverse

from plates.store.models import BathCare, BathReading
from tests import builders
from tests.builders.store import a_batch, a_bath

pytestmark = pytest.mark.django_db

# 76.88 g/L, which the example rounds to 76.9.
WEAK = 115_320


def words(answer):
    return " ".join(answer.content.decode().split())


def page(photographer, bath, **asked):
    return words(photographer.get(reverse("plates:bath", args=[bath.pk]), asked))


def read(photographer, bath, **fields):
    return photographer.post(reverse("plates:bath_read", args=[bath.pk]), {"scale": "20/20"} | fields)


def care(photographer, bath, **fields):
    return photographer.post(reverse("plates:bath_care", args=[bath.pk]), fields)


def test_a_strength_is_told_in_every_way_that_it_is_printed(photographer):
    answer = page(photographer, a_bath())

    # 90 g/L is 9 % w/v and 8.39 % w/w (trade-facts s.4, C); by the grain and ounce of Handbook 44 41.1 and 39.5.
    assert "90.0 g/L" in answer
    assert "9.00 % w/v, 8.39 % w/w, 41.1 grains to the US ounce, 39.5 to the imperial ounce" in answer


def test_a_weak_bath_is_told_both_doses_of_the_worked_example(photographer):
    answer = page(photographer, a_bath(silver_mg=WEAK))

    assert "<strong>20.0 g of silver nitrate</strong>" in answer
    assert "<strong>93.7 mL of stock</strong> at 300.0 g/L" in answer
    assert "goggles and gloves" in answer


def test_the_dose_of_another_stock_is_worked_out(photographer):
    # 1500 (90 - 76.88) / (200 - 90) = 178.9 mL.
    assert "<strong>178.9 mL of stock</strong>" in page(
        photographer, a_bath(silver_mg=WEAK), stock_strength="200"
    )


def test_a_stock_weaker_than_the_bath_is_to_be_is_said_to_be_of_no_use(photographer):
    answer = page(photographer, a_bath(silver_mg=WEAK), stock_strength="80")

    assert "must be stronger than the bath is to be" in answer


def test_a_bath_that_is_too_strong_is_told_its_water(photographer):
    # Trade-facts s.4: 1 L at 105 g/L takes 166.7 mL of water to 90 g/L (C).
    bath = a_bath(made_ul=1_000_000, silver_mg=105_000)

    assert "<strong>166.7 mL of distilled water</strong>" in page(photographer, bath)


def test_a_bath_that_has_lost_volume_is_told_what_fills_it_up(photographer):
    bath = a_bath()
    read(photographer, bath, volume="1400")

    # 100 mL at 90 g/L are missing: 9 g of salt (C).
    assert "<strong>9.0 g of silver nitrate and about" in page(photographer, bath)


def test_a_bath_of_unknown_strength_asks_for_a_reading(photographer):
    assert "Nobody knows how strong it is: write a reading down." in page(
        photographer, a_bath(silver_mg=None)
    )


def test_a_reading_is_written_down_in_whole_numbers(photographer):
    bath = a_bath()

    read(
        photographer,
        bath,
        gravity="1.0640",
        celsius="18.5",
        ph="4.25",
        volume="1480",
        read_note="after sunning",
    )

    row = BathReading.objects.get()
    assert (row.gravity_e4, row.celsius_tenths, row.ph_hundredths, row.volume_ul) == (
        10640,
        185,
        425,
        1_480_000,
    )
    assert row.operator.username == "operator"
    assert "(float)" in page(photographer, bath)


@pytest.mark.parametrize(
    ("fields", "sentence"),
    [
        ({}, "A reading reads something: fill in at least one measurement."),
        ({"gravity": "1.064"}, "A hydrometer needs the warmth of the bath with it."),
        ({"gravity": "1.064", "celsius": "30"}, "less than or equal to 25"),
        ({"gravity": "0.95", "celsius": "20"}, "is none of a silver nitrate solution"),
        ({"grains": "40"}, "Grains to the ounce need which ounce"),
        ({"titrant": "26.49", "molar": "0.1"}, "A titration needs the sample"),
        ({"titrant": "900", "molar": "10", "sample": "1"}, "must be at most 1000"),
    ],
)
def test_what_is_no_reading_is_refused_in_words(photographer, fields, sentence):
    answer = read(photographer, a_bath(), **fields)

    assert answer.status_code == 400
    assert sentence in words(answer)
    assert not BathReading.objects.exists()


def test_what_was_done_is_written_down_and_reckoned_in(photographer):
    bath = a_bath(silver_mg=WEAK)

    care(photographer, bath, kind="salt", salt="20.01")

    assert BathCare.objects.get().salt_mg == 20_010
    assert "<strong>90.0 g/L</strong>" in page(photographer, bath)


def test_salt_that_is_sent_twice_was_added_once(photographer):
    bath = a_bath()

    for _ in range(2):
        care(photographer, bath, kind="salt", salt="20")

    assert BathCare.objects.count() == 1


def test_a_bath_is_put_to_use_at_a_bench(photographer):
    bath, bench = a_bath(), builders.a_bench(name="Home bench")

    care(photographer, bath, kind="in_use", bench=bench.pk)

    assert "In use at Home bench." in page(photographer, bath)


@pytest.mark.parametrize(
    ("fields", "sentence"),
    [
        ({"kind": "in_use"}, "A bath is put to use at a bench"),
        ({"kind": "salt"}, "say how many grams were added"),
        ({"kind": "filtered", "salt": "1"}, "Dry salt is weighed, and only then"),
        ({"kind": "stock", "poured": "5"}, "needs its strength in g/L"),
        ({"kind": "water"}, "say how many millilitres"),
        ({"kind": "sunned", "poured": "5"}, "What is poured is measured, and only that"),
    ],
)
def test_what_was_not_done_is_refused_in_words(photographer, fields, sentence):
    answer = care(photographer, a_bath(), **fields)

    assert answer.status_code == 400
    assert sentence in words(answer)


def test_a_fixer_has_no_page_of_a_bath(photographer):
    fixer = a_batch()

    assert photographer.get(reverse("plates:bath", args=[fixer.pk])).status_code == 404
