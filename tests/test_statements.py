"""The round on PostgreSQL leaves out no statement of the program, and nothing that the database refused."""

import pytest
from django.db import IntegrityError, connection

from plates.bench.models import PlateSize
from plates.store.selectors.supplies import figures
from tests.builders import a_size
from tests.statements import Asked, Record, fewest, written


@pytest.fixture
def record(db):
    record = Record()
    connection.execute_wrappers.append(record)
    yield record
    connection.execute_wrappers.remove(record)


def test_every_statement_is_asked_by_one_of_the_chosen():
    tests = {"a": Asked({1, 2, 3}, 3), "b": Asked({3, 4}, 2), "c": Asked({1, 4}, 2)}

    chosen = fewest(tests)

    assert set().union(*(tests[test].statements for test in chosen)) == {1, 2, 3, 4}
    assert chosen == {"a", "b"}


def test_of_two_that_ask_the_same_the_shorter_is_chosen():
    assert fewest({"long": Asked({1, 2}, 900), "short": Asked({1, 2}, 2)}) == {"short"}


def test_a_test_with_a_refusal_is_always_chosen():
    assert fewest({"plain": Asked({1}, 1), "refused": Asked({1}, 50, always=True)}) == {"refused"}


def test_a_test_that_was_left_out_in_the_first_round_has_its_turn_in_the_second(tmp_path):
    record = Record()
    record.left_out("a test")
    record.write(tmp_path, "gw0")

    assert fewest(written(tmp_path)) == {"a test"}


def test_what_the_program_asks_is_noted_once_and_looks_of_the_test_are_not(record):
    with record.of("a test"):
        figures()
        figures()
        assert not PlateSize.objects.filter(name="none").exists()

    asked = record.tests["a test"]
    assert (len(asked.statements), asked.count, asked.always) == (1, 3, False)


def test_a_refusal_of_the_database_is_noted(record):
    with record.of("a test"), pytest.raises(IntegrityError):
        PlateSize.objects.create(name=a_size().name, width_mm=1, height_mm=1, wash_places=1)

    assert record.tests["a test"].always


def test_the_number_of_values_in_a_list_makes_no_other_statement(record):
    two, three = (record._checksum(f"SELECT 1 WHERE 1 IN ({values})") for values in ("%s, %s", "%s, %s, %s"))

    assert two == three


def test_what_all_workers_wrote_is_read(record, tmp_path):
    with record.of("a test"):
        figures()
    record.write(tmp_path, "gw0")
    record.tests = {"another": Asked({7}, 1, always=True)}
    record.write(tmp_path, "gw1")

    found = written(tmp_path)

    assert found["another"] == Asked({7}, 1, always=True)
    assert len(found["a test"].statements) == 1
