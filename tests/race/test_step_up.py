"""One mailed link pressed by twenty processes at once lets exactly one of them in.

Outside: OWASP ASVS 5.0 6.5.1 (used once), as read in quality-bars s.2.11.
"""

import pytest

from bookings.access.services import GONE
from tests.race.step_up import PRESSING


def let_in(report):
    return [each["answer"] for [each] in report["outcomes"] if each["error"] is None]


def test_of_twenty_who_press_one_link_at_once_one_gets_in(rows, run_race):
    report = run_race(rows, "one_link")

    refused = [(each["error"], each["words"]) for [each] in report["outcomes"] if each["error"]]
    assert len(let_in(report)) == 1
    assert refused == [("LinkInvalid", GONE)] * (PRESSING - 1)
    assert report["stored"]["used"] == 1


@pytest.mark.postgres
def test_without_its_lock_a_link_lets_several_in_on_postgresql(postgres_rows, run_race):
    report = run_race(postgres_rows, "one_link", "link_read_before_its_lock")

    assert len(let_in(report)) > 1
