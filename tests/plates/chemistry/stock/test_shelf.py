"""Held against trade-facts s.3: ripe after 7 days, at its best to about six months (A, conflicting); developer 14 days
(E); fixer two months (B); varnish a year (E). The calendar is that of Python's own dates."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plates.chemistry.stock.shelf import KEEPING, Batch, Keeping, months_later
from plates.chemistry.values import ChemistryValueError
from tests.plates.chemistry.strategies import few

MIXED = date(2026, 3, 2)
COLLODION = Batch(MIXED, KEEPING["collodion"])


@pytest.mark.parametrize(
    ("solution", "ripe_after", "best_for", "sure"),
    [("collodion", 7, 182, "A"), ("developer", 0, 14, "E"), ("fixer", 0, 60, "B"), ("varnish", 0, 365, "E")],
    ids=["collodion-A", "developer-E", "fixer-B", "varnish-E"],
)
def test_what_keeps_how_long(solution, ripe_after, best_for, sure):
    keeping = KEEPING[solution]

    assert (keeping.ripe_after_days, keeping.best_for_days) == (ripe_after, best_for)
    assert keeping.source.confidence == sure


@pytest.mark.parametrize(
    ("on", "standing"),
    [
        (date(2026, 3, 2), "ripening"),
        (date(2026, 3, 8), "ripening"),
        (date(2026, 3, 9), "ready"),
        (date(2026, 8, 30), "ready"),
        (date(2026, 8, 31), "past its best"),
    ],
    ids=str,
)
def test_collodion_ripens_for_a_week_and_is_good_for_half_a_year(on, standing):
    assert COLLODION.condition(on) == standing


def test_the_dates_to_write_on_the_label():
    assert (COLLODION.ripe_from, COLLODION.best_before) == (date(2026, 3, 9), date(2026, 8, 31))


def test_a_day_before_it_was_mixed_is_refused():
    with pytest.raises(ChemistryValueError, match=r"The batch was mixed on 2026-03-02, after 2026-03-01."):
        COLLODION.condition(MIXED - timedelta(days=1))


def test_what_ripens_longer_than_it_keeps_is_refused():
    with pytest.raises(ChemistryValueError, match=r"Days at its best must be at least 8, got 7."):
        Keeping(7, 7, KEEPING["collodion"].source)


@pytest.mark.parametrize(
    ("day", "months", "then"),
    [
        (date(2026, 8, 31), 6, date(2027, 2, 28)),
        (date(2027, 8, 31), 6, date(2028, 2, 29)),
        (date(2026, 12, 15), 1, date(2027, 1, 15)),
        (date(2026, 1, 31), 0, date(2026, 1, 31)),
    ],
    ids=["short month", "leap year", "new year", "no month"],
)
def test_months_later_is_the_same_day_or_the_last_of_the_month(day, months, then):
    assert months_later(day, months) == then


@few
@given(st.dates(date(2000, 1, 1), date(2100, 1, 1)), st.integers(1, 24))
def test_months_later_lies_in_the_month_that_was_meant(day, months):
    then = months_later(day, months)

    assert then.year * 12 + then.month == day.year * 12 + day.month + months
    assert then.day == day.day or (then + timedelta(days=1)).day == 1
