"""What every test may ask for, and what happens where a machine that some tests need is not there."""

import gc
import os
from datetime import UTC, datetime
from uuid import uuid4

import psycopg
import pytest
import redis as redis_client
from django.conf import settings
from django.db import connection, transaction
from django.db.backends.sqlite3.base import DatabaseOperations
from hypothesis import settings as hypothesis_settings

from tests import machines, statements
from tests.together import Together

IN_CI = os.environ.get("CI", "").lower() in {"true", "1"}

# Django and Chromium are far slower in the first example than in the next ones, so no example has a deadline.
hypothesis_settings.register_profile("studio", deadline=None)
# Where the same examples come every time, more of them find nothing new.
hypothesis_settings.register_profile("ci", deadline=None, max_examples=12, derandomize=True, print_blob=True)
# For a night (bin/test --long); a test that sets its own number of examples keeps it.
hypothesis_settings.register_profile("long", deadline=None, max_examples=500, print_blob=True)
hypothesis_settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE") or ("ci" if IN_CI else "studio"))


def absent_machines():
    """Return {marker: what is missing} for the machines that this run cannot use."""
    absent = {}
    if not os.environ.get(machines.POSTGRES):
        absent["postgres"] = f"{machines.POSTGRES} is not set; bin/test starts a PostgreSQL and sets it"
    if not os.environ.get(machines.REDIS):
        absent["redis"] = f"{machines.REDIS} is not set; bin/test starts a Redis and sets it"
    if not machines.chromium():
        absent["browser"] = "no Chromium is installed"
    return absent


def pytest_report_header():
    return f"rows of the site: {settings.DATABASES['default']['ENGINE']}"


def pytest_collection_modifyitems(config, items):
    absent = {} if IN_CI else absent_machines()  # in CI they fail, see below
    left_out = {item for item in items if any(item.get_closest_marker(name) for name in absent)}
    left_out |= seen_on_the_other_database(items)
    config.hook.pytest_deselected(items=list(left_out))
    items[:] = [item for item in items if item not in left_out]


def seen_on_the_other_database(items):
    """On PostgreSQL, whose round is the second, those that ask it nothing that others do not ask too."""
    folder = statements.folder()
    if folder is None or not ON_POSTGRES:
        return set()
    chosen = statements.fewest(statements.written(folder))
    return {item for item in items if item.nodeid not in chosen}


RECORD = statements.Record()
ON_POSTGRES = settings.DATABASES["default"]["ENGINE"].endswith("postgresql")


def pytest_sessionstart():
    if statements.folder() and not ON_POSTGRES:
        connection.execute_wrappers.append(RECORD)


@pytest.hookimpl(wrapper=True)
def pytest_runtest_protocol(item):
    if item.get_closest_marker("browser"):
        return (yield)
    with RECORD.of(item.nodeid):
        return (yield)


def pytest_runtest_logreport(report):
    if report.skipped:
        RECORD.left_out(report.nodeid)


def pytest_sessionfinish(session):
    if statements.folder() and not ON_POSTGRES:
        worker = getattr(session.config, "workerinput", {"workerid": "main"})["workerid"]
        RECORD.write(statements.folder(), worker)


def pytest_collection_finish():
    # What the libraries made lives to the end: looking through it for waste took a tenth of the time.
    gc.collect()
    gc.freeze()
    gc.set_threshold(100_000, 50, 100)


def pytest_xdist_make_scheduler(config, log):
    return Together(config, log)


def pytest_runtest_setup(item):
    for name, reason in absent_machines().items():
        if item.get_closest_marker(name):
            pytest.fail(f"This test is marked {name}, and {reason}.", pytrace=False)


def pytest_terminal_summary(terminalreporter):
    for name, reason in absent_machines().items():
        fate = "FAIL" if IN_CI else "ARE LEFT OUT"
        terminalreporter.write_line(f"Tests marked {name} {fate}: {reason}.", yellow=True, bold=True)


def _emptied_without_triggers(operations, sql_list):
    """Empty a SQLite test database, whose ledgers refuse that: in the same transaction their triggers go and come."""
    with operations.connection.cursor() as cursor:
        found = cursor.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'").fetchall()
    taken_away = [f"DROP TRIGGER {name}" for name, _ in found]
    _emptied(operations, [*taken_away, *sql_list, *(sql for _, sql in found)])


_emptied = DatabaseOperations.execute_sql_flush
DatabaseOperations.execute_sql_flush = _emptied_without_triggers


@pytest.fixture(scope="module")
def rows_for_all(django_db_setup, django_db_blocker):
    """For a fixture that makes rows once for all tests of its file: each test sees them, and undoes only its own.

    Such a file belongs on one worker: name it in `tests/together.py`.
    """
    with django_db_blocker.unblock(), transaction.atomic():
        connection.close = lambda: None  # every test closes it at its end, and would undo these rows with it
        yield
        del connection.close
        transaction.set_rollback(True)


@pytest.fixture
def now():
    """A Tuesday morning in winter, nine o'clock at the studio too: services take the time as an argument."""
    return datetime(2027, 3, 9, 9, 0, tzinfo=UTC)


@pytest.fixture
def postgres_url():
    """The address of an empty PostgreSQL database that no other test sees. For tests marked postgres."""
    address = os.environ[machines.POSTGRES]
    name = f"studio_{uuid4().hex}"
    with psycopg.connect(address, autocommit=True) as connection:
        connection.execute(f"CREATE DATABASE {name}")
        yield f"{address.rpartition('/')[0]}/{name}"
        connection.execute(f"DROP DATABASE {name} WITH (FORCE)")


@pytest.fixture
def redis_url(worker_id):
    """The address of an empty Redis database that no other test uses meanwhile. For tests marked redis."""
    number = int(worker_id.removeprefix("gw")) if worker_id != "master" else 0
    address = f"{os.environ[machines.REDIS]}/{number}"
    with redis_client.Redis.from_url(address) as client:
        client.flushdb()
        yield address
        client.flushdb()
