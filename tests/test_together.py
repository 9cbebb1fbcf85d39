"""How tests are spread over the workers."""

import pytest

from tests.together import PAGES, QUICK, RACES, WHOLE, place


def test_what_is_asked_of_one_page_stays_together():
    assert (
        place(f"{PAGES}::test_a[queue]")
        == place(f"{PAGES}::test_b[queue]")
        != place(f"{PAGES}::test_b[order]")
    )


@pytest.mark.parametrize("file", [PAGES, *sorted(WHOLE)])
def test_every_file_that_is_named_is_there(file, pytestconfig):
    assert (pytestconfig.rootpath / file).is_file()


def test_a_file_that_shares_what_takes_long_stays_together():
    assert place("tests/bookings/practice/test_rehearsal.py::test_a") == place(
        "tests/bookings/practice/test_rehearsal.py::test_b[1]"
    )


@pytest.mark.parametrize("folder", QUICK)
def test_quick_tests_travel_by_their_file(folder, pytestconfig):
    assert [*(pytestconfig.rootpath / folder).glob("test_*.py")]
    assert place(f"{folder}test_x.py::test_a") == place(f"{folder}test_x.py::test_b[1]")


def test_races_never_run_beside_one_another():
    assert place(f"{RACES}/test_selling.py::test_a[sqlite]") == place(f"{RACES}/test_vouchers.py::test_b")


def test_other_tests_go_wherever_there_is_time():
    assert place("tests/test_docs.py::test_a") != place("tests/test_docs.py::test_b")
