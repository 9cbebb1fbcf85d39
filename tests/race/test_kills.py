"""A process that books and mails is ended by kill -9 at any moment: nothing is lost, and nothing invented.

Six rounds here, two hundred in `python -m tests.benchmarks.kills`.
"""

import json

from tests.race.conftest import site

ROUNDS = 3  # on each of the two databases


def test_what_a_killed_process_left_is_made_good_within_a_minute(rows, tmp_path):
    report = json.loads(site(rows, tmp_path / "data", ["-m", "tests.benchmarks.kills", str(ROUNDS)]))

    assert report["wrong"] == {}
    assert report["acknowledged"] >= ROUNDS
    assert report["letters"] >= report["bookings"] >= report["acknowledged"]
