"""Scratch databases with the site's own settings, one for each race, and the running of a scene on one."""

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from threading import Timer
from uuid import uuid4

import psycopg
import pytest

from tests import machines

ROOT = Path(__file__).resolve().parents[2]
PATIENCE = 120  # seconds for one race


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
        [sys.executable, *command],
        cwd=ROOT,
        env=environment,
        capture_output=True,
        text=True,
        timeout=PATIENCE,
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


@pytest.fixture(scope="session")
def starters(tmp_path_factory):
    """A function that returns the starter for a kind of database; each is started when it is first asked for."""
    started = {}

    def starter(kind):
        if kind not in started:
            folder = tmp_path_factory.mktemp("starter")
            nowhere = {"sqlite": f"sqlite:///{folder / 'none.sqlite3'}"}
            environment = surroundings(nowhere.get(kind) or os.environ[machines.POSTGRES], folder)
            started[kind] = subprocess.Popen(
                [sys.executable, "-m", "tests.race.starter"],
                cwd=ROOT, env=environment, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True,
            )  # fmt: skip
        return started[kind]

    yield starter
    for process in started.values():
        process.communicate(timeout=10)


@pytest.fixture
def run_race(tmp_path, starters):
    """A function that runs a scene on a database, with mutants if named, and returns its report.

    With settings of its own (`more`) a race is started alone.
    """

    def run(database_url, scene, *mutants, **more):
        if more:
            command = ["-m", "tests.race.worker", scene, *mutants]
            return json.loads(site(database_url, tmp_path / "data", command, **more))
        asked = {
            "database": database_url,
            "folder": str(tmp_path / "data"),
            "scene": scene,
            "mutants": mutants,
        }
        answer = ask(starters(database_url.partition(":")[0]), asked)
        assert "broke" not in answer, answer["broke"]
        return answer["report"]

    return run


def ask(process, asked):
    """Send one line to a process and return the line it answers; a process that says nothing is stopped."""
    watch = Timer(PATIENCE, process.kill)
    watch.start()
    process.stdin.write(json.dumps(asked) + "\n")
    process.stdin.flush()
    line = process.stdout.readline()
    watch.cancel()
    assert line, f"The starter said nothing for {PATIENCE} seconds."
    return json.loads(line)
