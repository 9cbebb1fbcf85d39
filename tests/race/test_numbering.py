"""Sixteen processes issue invoices; a fifth is rolled back and some are killed: the numbers are 1 to n, each once.

The bar is quality-bars s.2.10. SIGKILL leaves a process no chance to tidy up (POSIX): what is undone then, the database
undoes by itself.
"""

import signal

from tests.race.numbering import EACH, fate
from tests.race.worker import CONTENDERS

FATES = [[fate(number, turn) for turn in range(EACH)] for number in range(CONTENDERS)]
ISSUED = sum(row.count("issued") for row in FATES)


def ends(report):
    """What came of each act, as `fate` says it."""
    words = {"GivenUp": "rolled back", None: "issued"}
    return [
        [
            "killed" if act["answer"] == signal.SIGKILL else words.get(act["error"], act["words"])
            for act in row[1:]
        ]
        for row in report["outcomes"]
    ]


def test_a_fifth_is_rolled_back_and_some_are_killed():
    every = [end for row in FATES for end in row]

    assert every.count("rolled back") / len(every) == 1 / 5
    assert every.count("killed") == 8


def test_numbers_have_no_gap_and_their_dates_never_fall(rows, run_race):
    report = run_race(rows, "numbers")

    assert ends(report) == FATES
    stored = report["stored"]
    assert stored["numbers"] == list(range(1, 1 + ISSUED + 1))
    assert stored["counter"] == 1 + ISSUED
    # The order that all wanted has one invoice, and all were given it.
    assert {row[0]["answer"] for row in report["outcomes"]} == {"INV-2026-0001"}
    assert stored["dates"] == sorted(stored["dates"])
    assert len(set(stored["dates"])) == 2


def test_without_its_lock_the_counter_gives_a_number_out_twice(sqlite_rows, run_race):
    report = run_race(sqlite_rows, "one_number_each", "counter_read_before")

    # Two took the same number, and only the database stopped the second.
    assert "IntegrityError" in {row[0]["error"] for row in report["outcomes"]}
