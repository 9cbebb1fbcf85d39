"""Six drains at once for one waiting list: as many offers as places, to whoever asked first, one each."""

import pytest

from tests.race.layouts import PLACES
from tests.race.waiting import EXPECTED


def test_six_drains_offer_each_place_once_and_in_order(rows, run_race):
    report = run_race(rows, "waiting")

    stored = report["stored"]
    assert {each["error"] for turns in report["outcomes"] for each in turns} == {None}
    assert len(set(stored["orders"])) == len(stored["orders"]) == PLACES
    assert stored["held"] == PLACES
    assert stored["offered"] == [EXPECTED]
    assert stored["problems"] == []
    assert stored["letters"] == {"offer": PLACES}


@pytest.mark.postgres
def test_without_the_lock_of_the_day_more_is_held_than_there_is_on_postgresql(postgres_rows, run_race):
    report = run_race(postgres_rows, "waiting", "without_the_day_lock")

    assert report["stored"]["held"] > PLACES
