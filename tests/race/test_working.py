"""Sixteen processes at once number plates, send letters and pay: nothing is done twice, nothing is left out."""

import pytest

from tests.race.worker import CONTENDERS
from tests.race.working import EACH

# Every fifth attempt of all is rolled back (quality-bars s.2.10: numbers without gaps under 20 % rollbacks).
ROLLED_BACK = sum((number * EACH + turn) % 5 == 0 for number in range(CONTENDERS) for turn in range(EACH))


def errors(report, turn):
    return [each[turn]["error"] for each in report["outcomes"] if each[turn]["error"]]


def assert_only_given_up(report):
    found = [error for turn in range(1, EACH + 1) for error in errors(report, turn)]
    assert found == ["GivenUp"] * ROLLED_BACK


def test_plates_are_numbered_without_a_gap_though_some_pourings_are_rolled_back(rows, run_race):
    report = run_race(rows, "pouring")

    assert_only_given_up(report)
    poured = 1 + CONTENDERS * EACH - ROLLED_BACK
    assert report["stored"]["numbers"] == list(range(1, poured + 1))
    # The place that all wanted to pour for has one plate.
    assert errors(report, 0) == ["SlotTaken"] * (CONTENDERS - 1)


@pytest.mark.postgres
def test_each_letter_is_sent_once_by_sixteen_senders_at_once(postgres_rows, run_race):
    report = run_race(postgres_rows, "letters")

    assert errors(report, 0) == []
    due = sorted(report["world"]["message_ids"])
    assert len(due) == 8
    assert sorted(report["stored"]["message_ids"]) == due
    assert sum(each[0]["answer"] for each in report["outcomes"]) == len(due)
    assert (report["stored"]["sent"], report["stored"]["claimed"]) == (len(due), 0)


def test_a_practice_card_that_is_pressed_sixteen_times_at_once_pays_once(sqlite_rows, run_race):
    report = run_race(sqlite_rows, "practice_card", SILVER_HOUR_DEMO="1")

    assert {each[0]["answer"] for each in report["outcomes"]} == {302}
    assert report["stored"] == {"amounts": [4250], "letters": {"deposit_due": 1, "confirmed": 1}}


def test_a_payment_that_sixteen_messages_tell_of_at_once_is_entered_once(rows, run_race):
    report = run_race(rows, "card_messages")

    assert errors(report, 0) == []
    assert report["stored"] == {
        "amounts": [4250],
        "outcomes": ["known", "known", "known", "paid"],
        "letters": {"deposit_due": 1, "confirmed": 1},
    }
