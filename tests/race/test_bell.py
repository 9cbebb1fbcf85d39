"""The bell: with a broker a real worker sends a letter at once; with a deaf one nothing is lost.

Nobody waits for it either: the bell is rung once everything is committed.
"""

import signal
import socket
import sqlite3
import subprocess
import sys
import time
from contextlib import contextmanager

import pytest

from tests import machines
from tests.race.conftest import ROOT, site, surroundings

# One order whose deposit is paid: its confirmation is due at once, and queuing it rings the bell.
A_PAID_ORDER = [
    "-c",
    "import django; django.setup(); from tests import builders; builders.a_paid_order(builders.a_day())",
]
SETTINGS = {"DJANGO_SETTINGS_MODULE": "config.settings"}
PATIENCE = 25  # seconds; the worker itself needs a few to start
# Longer than the three seconds that each of its tries may wait, far shorter than any page may take.
SILENCE = 12
RING = [
    "-c",
    """
import time, django
django.setup()
from bookings.outbox.services import ring
begun = time.monotonic()
ring()
print(time.monotonic() - begun)
""",
]


def sent_letters(rows):
    """The kinds of letter that were sent."""
    with sqlite3.connect(rows.removeprefix("sqlite:///")) as connection:
        found = connection.execute("SELECT kind FROM bookings_notice WHERE sent_at IS NOT NULL").fetchall()
    connection.close()
    return [kind for (kind,) in found]


@contextmanager
def a_silent_broker():
    """The address of a broker that takes every call and never says a word: nothing reads what is sent to it."""
    with socket.create_server(("127.0.0.1", 0), backlog=50) as listening:
        yield f"redis://127.0.0.1:{listening.getsockname()[1]}/0"


@pytest.fixture
def worker(sqlite_rows, tmp_path, redis_url):
    """A Celery worker of the site without its beat, so that it does nothing unless the bell is rung."""
    command = [
        sys.executable,
        "-m",
        "celery",
        "-A",
        "config",
        "worker",
        "--pool",
        "threads",
        "--concurrency",
        "2",
    ]
    surrounding = surroundings(sqlite_rows, tmp_path, REDIS_URL=redis_url)
    with (tmp_path / "worker.log").open("w") as log:
        process = subprocess.Popen(command, cwd=ROOT, env=surrounding, stdout=log, stderr=log)
        yield process
        process.send_signal(signal.SIGTERM)
        process.wait(15)


@pytest.mark.redis
def test_a_letter_is_sent_by_a_worker_as_soon_as_the_bell_is_rung(sqlite_rows, tmp_path, redis_url, worker):
    site(sqlite_rows, tmp_path, A_PAID_ORDER, REDIS_URL=redis_url, **SETTINGS)

    deadline = time.monotonic() + PATIENCE
    while not sent_letters(sqlite_rows) and time.monotonic() < deadline and worker.poll() is None:
        time.sleep(0.2)

    assert "confirmed" in sent_letters(sqlite_rows), (tmp_path / "worker.log").read_text()[-2000:]
    letters = [file.read_text() for file in (tmp_path / "mail").iterdir()]
    assert sum("Ines Madrugada" in letter for letter in letters) == 1


def test_with_a_deaf_broker_everything_is_kept_and_the_next_sweep_sends_it(sqlite_rows, tmp_path):
    nobody = f"redis://127.0.0.1:{machines.free_port()}/0"
    begun = time.monotonic()

    site(sqlite_rows, tmp_path, A_PAID_ORDER, REDIS_URL=nobody, **SETTINGS)

    assert time.monotonic() - begun < PATIENCE
    assert sent_letters(sqlite_rows) == []
    site(sqlite_rows, tmp_path, ["manage.py", "drain"])
    assert sent_letters(sqlite_rows) == ["confirmed"]


def test_a_silent_broker_holds_nobody_up_for_long(sqlite_rows, tmp_path):
    with a_silent_broker() as silent:
        waited = float(site(sqlite_rows, tmp_path, RING, REDIS_URL=silent, **SETTINGS))

    assert waited < SILENCE
