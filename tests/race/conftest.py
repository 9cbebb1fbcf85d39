"""Scratch databases with the site's own settings, one for each race, and the running of a scene on one."""

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from uuid import uuid4

import psycopg
import pytest

from tests import machines

ROOT = Path(__file__).resolve().parents[2]


def pytest_collection_modifyitems(config, items):
    """Leave the races out where the whole site is on PostgreSQL: the other round has run them on both databases."""
    if not os.environ.get("DATABASE_URL", "").startswith("postgres"):
        return
    here = [item for item in items if Path(__file__).parent in item.path.parents]
    config.hook.pytest_deselected(items=here)
    items[:] = [item for item in items if item not in here]


def surroundings(database_url, folder, **more):
    """The environment in which the site runs on that database, its files in `folder`."""
    kept = {name: value for name, value in os.environ.items() if name != "DJANGO_SETTINGS_MODULE"}
    return kept | {"DATABASE_URL": database_url, "SILVER_HOUR_DATA": str(folder)} | more


def site(database_url, folder, command, **more):
    """Run a Python command line as the site runs, on that database; return what it wrote."""
    environment = surroundings(database_url, folder, **more)
    done = subprocess.run(
        [sys.executable, *command], cwd=ROOT, env=environment, capture_output=True, text=True, timeout=120
    )
    assert done.returncode == 0, done.stderr[-3000:]
    return done.stdout


@pytest.fixture(scope="session")
def migrated_file(tmp_path_factory):
    """A migrated, empty SQLite file, to be copied."""
    folder = tmp_path_factory.mktemp("migrated")
    file = folder / "rows.sqlite3"
    site(f"sqlite:///{file}", folder, ["manage.py", "migrate", "--verbosity", "0"])
    return file


@pytest.fixture(scope="session")
def migrated_database(tmp_path_factory):
    """The name of a migrated, empty PostgreSQL database, to be copied."""
    address, name = os.environ[machines.POSTGRES], f"migrated_{uuid4().hex}"
    url = f"{address.rpartition('/')[0]}/{name}"
    with psycopg.connect(address, autocommit=True) as connection:
        connection.execute(f"CREATE DATABASE {name}")
        site(url, tmp_path_factory.mktemp("migrated"), ["manage.py", "migrate", "--verbosity", "0"])
        yield name
        connection.execute(f"DROP DATABASE {name} WITH (FORCE)")


@pytest.fixture
def sqlite_rows(migrated_file, tmp_path):
    """The address of a migrated SQLite file that no other test sees."""
    file = tmp_path / "rows.sqlite3"
    shutil.copy(migrated_file, file)
    return f"sqlite:///{file}"


@pytest.fixture
def postgres_rows(migrated_database):
    """The address of a migrated PostgreSQL database that no other test sees."""
    address, name = os.environ[machines.POSTGRES], f"race_{uuid4().hex}"
    with psycopg.connect(address, autocommit=True) as connection:
        connection.execute(f"CREATE DATABASE {name} TEMPLATE {migrated_database}")
        yield f"{address.rpartition('/')[0]}/{name}"
        connection.execute(f"DROP DATABASE {name} WITH (FORCE)")


@pytest.fixture(params=["sqlite", pytest.param("postgres", marks=pytest.mark.postgres)])
def rows(request):
    """The address of a migrated database, on each of the two kinds in turn."""
    return request.getfixturevalue(f"{request.param}_rows")


@pytest.fixture
def run_race(tmp_path):
    """A function that runs a scene on a database, with mutants if named, and returns its report."""

    def run(database_url, scene, *mutants, **more):
        command = ["-m", "tests.race.worker", scene, *mutants]
        return json.loads(site(database_url, tmp_path / "data", command, **more))

    return run
