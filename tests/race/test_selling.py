"""Sixteen clients at once: exactly what can be made is sold, and whoever comes too late is told so in words.

The bar is `reference/quality-bars.md` s.1 #1-4 and s.2.3; the number of places is counted by hand (see `layouts.py`).
"""

import pytest

from tests.race.layouts import PLACES
from tests.race.worker import CONTENDERS

TOO_LATE = "The room is full of sitters from 10:00 to 10:14."


def answers(report, turn):
    return [each[turn]["answer"] for each in report["outcomes"] if each[turn]["error"] is None]


def refusals(report, turn):
    return [each[turn] for each in report["outcomes"] if each[turn]["error"] is not None]


def assert_sold_exactly(report):
    """One place of each day was sold before the race; the rest went, each once, and no more."""
    assert report["world"]["calm"] == PLACES
    assert report["stored"]["sold"] == [PLACES] * 3
    assert report["stored"]["problems"] == []
    for turn in range(3):
        sold = answers(report, turn)
        assert len(sold) == len(set(sold)) == PLACES - 1
        losers = refusals(report, turn)
        assert len(losers) == CONTENDERS - len(sold)
        assert {each["error"] for each in losers} == {"BenchFull"}
        assert all(each["words"].startswith(TOO_LATE) for each in losers)


def test_the_last_places_of_a_day_are_each_sold_once(rows, run_race):
    report = run_race(rows, "last_places")

    assert_sold_exactly(report)


def test_the_last_places_are_each_booked_named_and_paid_once(rows, run_race):
    report = run_race(rows, "whole_bookings")

    assert_sold_exactly(report)
    booked = 3 * (PLACES - 1)
    assert (report["stored"]["confirmed"], report["stored"]["payments"]) == (booked, booked)
    assert report["stored"]["letters"] == {"deposit_due": booked, "confirmed": booked}


@pytest.mark.postgres
def test_without_its_lock_a_day_is_oversold_on_postgresql(postgres_rows, run_race):
    report = run_race(postgres_rows, "last_places", "without_the_day_lock")

    assert max(report["stored"]["sold"]) > PLACES
    assert report["stored"]["problems"] != []
    with pytest.raises(AssertionError):
        assert_sold_exactly(report)


def test_with_deferred_transactions_clients_see_a_locked_database_on_sqlite(sqlite_rows, run_race):
    report = run_race(sqlite_rows, "last_places", "deferred", "without_the_day_lock")

    errors = {each["error"] for turn in range(3) for each in refusals(report, turn)}
    assert "OperationalError" in errors
    with pytest.raises(AssertionError):
        assert_sold_exactly(report)


def test_a_crowd_that_wants_different_times_and_sizes_leaves_a_day_that_can_be_made(sqlite_rows, run_race):
    report = run_race(sqlite_rows, "crowd")

    sold = [reference for turn in range(3) for reference in answers(report, turn)]
    assert report["stored"]["sold"] == [len(sold)]
    assert len(sold) >= 3
    assert report["stored"]["problems"] == []
    assert {each["error"] for turn in range(3) for each in refusals(report, turn)} == {"BenchFull"}


def test_days_planned_anew_side_by_side_sell_no_less_than_gaps_and_refuse_nobody_for_nothing(rows, run_race):
    """The planning is done outside the lock: what it found for a day that changed meanwhile must not be sold."""
    report = run_race(rows, "squeeze")

    stored = report["stored"]
    assert stored["problems"] == []
    # How many more hangs on who comes first. That gaps alone would hold fewer is shown without a race (test_starts).
    assert stored["sold"][0] >= report["world"]["by_gaps"]
    assert stored["sold"][0] == len(answers(report, 0)) + len(answers(report, 1))
    assert {each["error"] for turn in range(2) for each in refusals(report, turn)} <= {"BenchFull"}
    assert stored["wrongly_refused"] == []


@pytest.mark.postgres
def test_money_that_comes_late_for_a_place_that_others_want_too_is_all_kept(postgres_rows, run_race):
    report = run_race(postgres_rows, "late_money")

    assert refusals(report, 0) == []
    stored = report["stored"]
    assert stored["payments"] == CONTENDERS
    assert (stored["confirmed"], stored["without_a_place"]) == (PLACES, CONTENDERS - PLACES)
    assert stored["letters"] == {
        "deposit_due": CONTENDERS,
        "confirmed": PLACES,
        "new_time": CONTENDERS - PLACES,
    }
    assert (stored["sold"], stored["problems"]) == ([PLACES], [])


def test_one_form_sent_sixteen_times_at_once_is_one_order_and_no_key_is_used_twice(rows, run_race):
    report = run_race(rows, "same_form")

    assert len(answers(report, 0)) == CONTENDERS
    assert len(set(answers(report, 0))) == 1
    another_size, another_day = 1, 2
    for turn in (another_size, another_day):
        assert len(set(answers(report, turn))) == 1
        assert len(answers(report, turn)) == len(refusals(report, turn)) == CONTENDERS // 2
        assert {(each["error"], each["words"]) for each in refusals(report, turn)} == {
            (
                "SubmissionChanged",
                "This form was already sent with another wish. Choose a time for this one again.",
            )
        }
    assert report["stored"]["orders"] == 3
