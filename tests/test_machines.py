"""The machines that tests need: that they are there and their own, and what happens where they are not."""

import os
import re
import socket
import subprocess
import sys
from pathlib import Path
from urllib.parse import urlsplit

import psycopg
import pytest
import redis as redis_client

from tests import machines

ROOT = Path(__file__).resolve().parent.parent
MARKED = "import pytest\n\n@pytest.mark.redis\ndef test_rings(): pass\n\ndef test_other(): pass\n"


def run_marked_test(folder, **environment):
    """Run one test that is marked redis, and one that is not, without any Redis."""
    (folder / "test_marked.py").write_text(MARKED)
    kept = {name: value for name, value in os.environ.items() if name not in {machines.REDIS, "CI"}}
    return subprocess.run(
        [sys.executable, "-m", "pytest", "-c", "pyproject.toml", "-p", "tests.conftest", folder],
        cwd=ROOT, env=kept | environment, capture_output=True, text=True, check=False,
    )  # fmt: skip


def test_in_ci_a_test_whose_machine_is_missing_fails(tmp_path):
    finished = run_marked_test(tmp_path, CI="true")

    assert finished.returncode == 1
    assert "This test is marked redis, and SILVER_HOUR_TEST_REDIS is not set" in finished.stdout
    assert "1 passed, 1 error" in finished.stdout


def test_elsewhere_it_is_left_out_and_that_is_said(tmp_path):
    finished = run_marked_test(tmp_path)

    assert finished.returncode == 0
    assert "Tests marked redis ARE LEFT OUT: SILVER_HOUR_TEST_REDIS is not set" in finished.stdout
    assert "1 passed, 1 deselected" in finished.stdout


def answers(address):
    place = urlsplit(address)
    with socket.socket() as line:
        return line.connect_ex((place.hostname, place.port)) == 0


@pytest.mark.postgres
@pytest.mark.redis
def test_the_machines_end_with_the_command_they_were_started_for():
    show = "import os; print(os.environ['SILVER_HOUR_TEST_POSTGRES'], os.environ['SILVER_HOUR_TEST_REDIS'])"
    finished = subprocess.run(
        [sys.executable, "-m", "tests.machines", sys.executable, "-c", show + "; raise SystemExit(7)"],
        cwd=ROOT, capture_output=True, text=True, check=False,
    )  # fmt: skip

    assert finished.returncode == 7
    addresses = finished.stdout.split()
    assert [re.sub(r"\d{2,}", "N", address.split("@")[-1]) for address in addresses] == [
        "N.0.0.1:N/silver_hour",
        "redis://N.0.0.1:N",
    ]
    assert [answers(address) for address in addresses] == [False, False]


# Design, section 4: PostgreSQL 15 or newer. `server_version_num` of its manual, section 20.15: 150000 is 15.0.
@pytest.mark.postgres
def test_the_postgresql_is_one_that_the_site_is_for_and_the_database_is_empty(postgres_url):
    with psycopg.connect(postgres_url) as connection:
        version = connection.execute("SHOW server_version_num").fetchone()[0]
        tables = connection.execute("SELECT count(*) FROM pg_tables WHERE schemaname = 'public'").fetchone()[
            0
        ]

    assert int(version) >= 150000
    assert tables == 0


@pytest.mark.redis
def test_the_redis_is_empty_and_keeps_nothing(redis_url):
    with redis_client.Redis.from_url(redis_url, decode_responses=True) as client:
        assert client.dbsize() == 0
        assert client.config_get("save", "appendonly") == {"save": "", "appendonly": "no"}


def test_a_command_that_does_not_start_is_reported_with_its_last_words(tmp_path):
    talks_and_fails = [sys.executable, "-c", "print('no room in the rack'); raise SystemExit(1)"]
    how = {"ready": lambda: False, "log": tmp_path / "log", "stop_signal": 15}

    with (
        pytest.raises(RuntimeError, match="did not start: no room in the rack"),
        machines.running(talks_and_fails, **how),
    ):
        pass
