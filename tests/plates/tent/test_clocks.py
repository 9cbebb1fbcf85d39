"""The clocks of the dark tent, against hand-reckoned seconds from the planning minutes of design s.3 (common practice,
no source): pour 2, bath 3 to 5, wet window 8, fix within 2, wash 60 to 120."""

import pytest

from plates.capacity import Timings
from plates.tent.clocks import Clock, clocks, most_pressing, read_clock

ROWS = clocks(Timings())


def said(stage, seconds):
    reading = read_clock(ROWS[stage], seconds)
    return reading.level, reading.seconds


@pytest.mark.parametrize(
    ("seconds", "level", "shown"),
    [
        (0, "wait", 300),
        (299, "wait", 1),
        (300, "go", 120),
        (359, "go", 61),
        (360, "soon", 60),
        (420, "soon", 0),
        (421, "late", 1),
    ],
)
def test_the_bath_is_counted_from_the_pour(seconds, level, shown):
    assert said("poured", seconds) == (level, shown)


@pytest.mark.parametrize("stage", ["sensitised", "exposed"])
def test_the_wet_window_runs_from_leaving_the_bath_until_developing_must_have_ended(stage):
    assert ROWS[stage].since == "sensitised"
    assert [said(stage, seconds) for seconds in (0, 420, 480, 481)] == [
        ("go", 480),
        ("soon", 60),
        ("soon", 0),
        ("late", 1),
    ]


def test_the_wash_waits_an_hour_and_is_late_after_two():
    assert [said("washing", minutes * 60) for minutes in (59, 60, 119, 120, 121)] == [
        ("wait", 60),
        ("go", 3600),
        ("soon", 60),
        ("soon", 0),
        ("late", 60),
    ]


def test_a_planned_pour_counts_down_and_then_on():
    assert [said("", seconds) for seconds in (-90, 0, 90)] == [("wait", 90), ("go", 0), ("go", 90)]


def test_no_clock_runs_from_the_rack_on():
    assert set(ROWS) == {"", "poured", "sensitised", "exposed", "developed", "fixed", "washing"}


def test_what_is_wet_goes_before_what_is_promised_sooner():
    assert most_pressing([(1, False, 10.0), (2, True, 900.0), (3, True, 800.0)]) == 3


def test_nothing_presses_where_nothing_is_left():
    assert most_pressing([]) is None


def test_a_span_that_ends_before_it_begins_is_refused():
    with pytest.raises(ValueError, match=r"^the span of Bath cannot end before it begins$"):
        Clock("Bath", "poured", 10, 9, "", "", "")
