"""How tests are spread over the workers."""

import pytest

from tests.together import ONE_BY_ONE, PAGES, RACES, WHOLE, place


def test_what_is_asked_of_one_page_stays_together():
    assert (
        place(f"{PAGES}::test_a[queue]")
        == place(f"{PAGES}::test_b[queue]")
        != place(f"{PAGES}::test_b[order]")
    )


@pytest.mark.parametrize("file", [PAGES, *sorted(WHOLE)])
def test_every_file_that_is_named_is_there(file, pytestconfig):
    assert (pytestconfig.rootpath / file).is_file()
    assert file.startswith(ONE_BY_ONE)


@pytest.mark.parametrize("file", ["tests/test_docs.py", *sorted(WHOLE)])
def test_the_tests_of_a_file_stay_together(file):
    assert place(f"{file}::test_a") == place(f"{file}::test_b[1]") != place("tests/test_words.py::test_a")


def test_races_never_run_beside_one_another():
    assert place(f"{RACES}/test_selling.py::test_a[sqlite]") == place(f"{RACES}/test_vouchers.py::test_b")


@pytest.mark.parametrize("folder", ONE_BY_ONE)
def test_tests_of_files_that_take_long_go_wherever_there_is_time(folder, pytestconfig):
    assert (pytestconfig.rootpath / folder).is_dir()
    assert place(f"{folder}test_x.py::test_a") != place(f"{folder}test_x.py::test_b")
