"""What the booked work takes, worked out by hand from trade-facts: s.3 (rates E, silver B) and s.5, R10 (C)."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plates.chemistry.bath.strength import grams_per_litre
from plates.chemistry.recipes.scaling import line
from plates.store import buying
from plates.store.buying import Mixed, Order, Work

# Ten plates of 100 cm², of which one in five is spoilt: 12.5 are poured.
TEN = Work(size_id=1, area_cm2=Fraction(100), plates=10, pours=buying.poured(10, 20))
FIXER = Mixed(Fraction(1000), (line("hypo", 200, "g", "sodium_thiosulfate"), line("water", 1, "l", "water")))


def test_what_is_spoilt_is_poured_again():
    assert TEN.pours == Fraction(25, 2)


def test_solutions_are_taken_by_area_and_varnish_by_kept_plates_only():
    # 1250 cm² poured at 0.03 and 0.22 mL, and a litre of fixer to 10 000 cm²; 1000 cm² kept at 0.02 mL.
    assert buying.solution_ml([TEN]) == {
        "collodion": Fraction("37.5"), "developer": 275, "fixer": 125, "varnish": 20,
    }  # fmt: skip


def test_silver_is_what_the_published_test_says():
    # 1.39 mg/cm² at 90 g/L over 1250 cm²: 1.74 g (B); the model gives 1.38.
    assert float(buying.silver_mg([TEN], grams_per_litre(90))) == pytest.approx(1.39 * 1250, rel=0.01)


def test_what_is_not_mixed_yet_is_bought_by_the_newest_recipe():
    # 125 mL wanted, 25 mL there: 100 mL of 200 g/L take 20 g.
    found = buying.chemicals({"fixer": Fraction(125)}, {"fixer": Fraction(25)}, {"fixer": FIXER})

    assert found[("sodium_thiosulfate", "mg")] == 20_000


def test_what_stands_on_the_shelf_already_is_not_bought_again():
    found = buying.chemicals({"fixer": Fraction(125)}, {"fixer": Fraction(200)}, {"fixer": FIXER})

    assert found == {("sodium_thiosulfate", "mg"): 0, ("water", "ul"): 0}


def test_a_kind_that_was_never_mixed_takes_nothing_that_is_known():
    assert buying.chemicals({"varnish": Fraction(20)}, {}, {}) == {}


@pytest.mark.parametrize(
    ("facts", "count"),
    [
        ({"size_id": 1, "a_plate": 1, "for_each_pour": True}, 13),
        ({"size_id": 1, "a_plate": 1, "for_each_pour": False}, 10),
        ({"size_id": None, "a_plate": 2, "for_each_pour": False}, 20),
        ({"size_id": 2, "a_plate": 1, "for_each_pour": True}, 0),
    ],
    ids=["bare plates", "sleeves", "two for any size", "another size"],
)
def test_pieces_go_with_plates_and_never_in_parts(facts, count):
    assert buying.pieces([TEN], **facts) == count


@pytest.mark.parametrize(
    ("stock", "bought"),
    [
        ({"level": 50, "need": 13, "least": 20, "pack": 25}, Order(13, 37, 0)),
        ({"level": 30, "need": 13, "least": 20, "pack": 25}, Order(13, 17, 1)),
        ({"level": 0, "need": Fraction(251, 10), "least": 0, "pack": 25}, Order(26, -26, 2)),
    ],
    ids=["enough", "below the least", "nothing there"],
)
def test_whole_packs_are_bought_up_to_the_least(stock, bought):
    assert buying.order(**stock) == bought


@given(st.integers(0, 500), st.integers(0, 500), st.integers(0, 500), st.integers(1, 60))
def test_the_packs_are_as_few_as_will_do(level, need, least, pack):
    packs = buying.order(level=level, need=need, least=least, pack=pack).packs

    assert level + packs * pack - need >= least or packs == 0
    assert packs == 0 or level + (packs - 1) * pack - need < least
    assert packs > 0 or level - need >= least
