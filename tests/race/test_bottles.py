"""Six clients want a plate each on six days, and the last bottle is enough for two of them."""

import pytest

from tests.race.bottles import CONTENDERS, PLATES

pytestmark = pytest.mark.postgres


def assert_no_more_was_sold_than_the_bottle_holds(report):
    assert report["stored"]["sold"] == PLATES
    losers = [each for [each] in report["outcomes"] if each["error"]]
    assert len(losers) == CONTENDERS - PLATES
    assert all(each["words"].startswith("There is not enough collodion") for each in losers)


def test_the_last_bottle_is_sold_once_whatever_the_day(postgres_rows, run_race):
    assert_no_more_was_sold_than_the_bottle_holds(run_race(postgres_rows, "one_bottle"))


def test_without_the_lock_of_the_store_room_it_is_sold_over_and_over(postgres_rows, run_race):
    report = run_race(postgres_rows, "one_bottle", "without_the_store_lock")

    assert report["stored"]["sold"] > PLATES
    with pytest.raises(AssertionError):
        assert_no_more_was_sold_than_the_bottle_holds(report)
