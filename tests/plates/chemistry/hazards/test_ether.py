"""Held against trade-facts s.3 (universities' guidance pages, A): test or discard six months after opening; taken away
from 100 ppm of peroxide; waste taken up to 20 ppm; never open crusted, rusted or undated cans."""

from datetime import date
from fractions import Fraction

import pytest

from plates.chemistry.hazards.ether import NEVER_OPEN, Ether, judge
from plates.chemistry.values import ChemistryValueError

CAME = date(2026, 1, 10)
OPENED = date(2026, 2, 1)
TESTED = date(2026, 7, 20)


@pytest.mark.parametrize(
    ("on", "verdict"),
    [(date(2026, 7, 31), "use"), (date(2026, 8, 1), "test"), (date(2027, 8, 1), "test")],
    ids=str,
)
def test_an_opened_can_is_tested_or_thrown_away_after_six_months(on, verdict):
    assert judge(Ether(CAME, OPENED), on).verdict == verdict


@pytest.mark.parametrize(("on", "verdict"), [(date(2027, 1, 9), "use"), (date(2027, 1, 10), "test")], ids=str)
def test_a_sealed_can_is_good_for_a_year(on, verdict):
    assert judge(Ether(CAME), on).verdict == verdict


def test_a_clean_test_gives_it_six_months_more():
    answer = judge(Ether(CAME, OPENED, TESTED, 20), date(2026, 12, 1))

    assert (answer.verdict, answer.sentence) == ("use", "Test it or throw it away by 2027-01-20.")


@pytest.mark.parametrize(
    ("ppm", "verdict"),
    [(20, "use"), (Fraction("20.1"), "do not use"), (Fraction("99.9"), "do not use"), (100, "do not touch")],
    ids=str,
)
def test_peroxide_decides_before_any_date(ppm, verdict):
    assert judge(Ether(CAME, OPENED, TESTED, ppm), TESTED).verdict == verdict


def test_what_was_found_is_said():
    answer = judge(Ether(CAME, OPENED, TESTED, Fraction(105, 2)), TESTED)

    assert (
        answer.sentence
        == "It holds 52.5 ppm of peroxide: do not use or heat it, and ask the waste service now."
    )


@pytest.mark.parametrize("can", [Ether(None), Ether(CAME, OPENED, sound=False)], ids=["undated", "crusted"])
def test_an_undated_or_crusted_can_is_not_touched(can):
    answer = judge(can, date(2026, 2, 2))

    assert (answer.verdict, answer.sentence) == ("do not touch", NEVER_OPEN)


def test_a_studio_may_test_more_often_but_not_less_than_yearly():
    assert judge(Ether(CAME, OPENED), date(2026, 5, 1), every_months=3).verdict == "test"
    with pytest.raises(ChemistryValueError, match=r"Months between tests must be at most 12, got 13."):
        judge(Ether(CAME, OPENED), OPENED, every_months=13)


@pytest.mark.parametrize(
    ("dates", "says"),
    [
        ((OPENED, CAME), r"Ether is received first, then opened, then tested: look at the dates."),
        ((CAME, OPENED, TESTED), r"A test needs both its day and the peroxide that was found."),
        ((CAME, OPENED, TESTED, -1), r"Peroxide in ppm must be at least 0, got -1."),
    ],
    ids=["order", "no figure", "negative"],
)
def test_dates_that_cannot_be_are_refused(dates, says):
    with pytest.raises(ChemistryValueError, match=says):
        Ether(*dates)
