"""The picture of a bath says the same as its book: higher is stronger, further right is later."""

from fractions import Fraction

import pytest

from plates.chemistry.bath.book import Added, Dipped, Measured, reckoned
from plates.chemistry.bath.care import BathLimits
from plates.chemistry.bath.strength import grams_per_litre
from plates.store.strength_picture import MOST_POINTS, lay_out

PLATE = Dipped(Fraction("129.032"))


def picture(*entries):
    book = reckoned(entries, millilitres=Fraction(1000), silver_grams=Fraction(90))
    return lay_out(book.points, BathLimits())


def corners(found):
    return [tuple(map(int, pair.split(","))) for pair in found.way.split()]


def test_the_way_falls_with_the_plates_and_rises_with_salt():
    way = corners(picture(*[PLATE] * 100, Added(salt_grams=Fraction(10))))

    assert way[0][1] < way[-2][1] > way[-1][1]
    assert way[0][0] < way[-1][0]


def test_a_measurement_is_a_mark_with_words():
    found = picture(PLATE, Measured(grams_per_litre(84)))

    assert [mark.title for mark in found.marks] == ["84.0 g/L measured after 1 plate"]


def test_the_limits_lie_below_each_other_within_the_picture():
    found = picture(PLATE)

    heights = [limit.at for limit in found.limits]
    assert heights == sorted(heights)
    assert all(0 < height < found.bottom for height in heights)


def test_the_summary_says_what_is_drawn():
    assert (
        picture(PLATE, Measured(grams_per_litre(84))).summary
        == "From 90.0 g/L to 84.0 g/L over 1 plate, measured once."
    )


@pytest.mark.parametrize("plates", [1, 199, 1500])
def test_a_long_life_is_drawn_with_as_many_points_as_the_eye_can_tell_apart(plates):
    way = corners(picture(*[PLATE] * plates))

    assert len(way) <= 2 * MOST_POINTS
    assert way[-1][0] == 608


def test_a_bath_of_which_nothing_is_known_has_no_picture():
    assert lay_out([], BathLimits()) is None
