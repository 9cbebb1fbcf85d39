"""A worker that is killed while a letter is in its hands: the next sweep after its claim sends it, within a minute.

The killed one is a real process, stopped by SIGKILL while a mail server (one that takes the call and never says a word)
holds it up. The minute is reckoned: claim and sweep together; the wait itself is played by moving the clock.
"""

import signal
import socket
import sqlite3
import subprocess
import sys
import time
from contextlib import contextmanager
from datetime import timedelta

from django.conf import settings

from bookings.letters.services.sending import IN_HAND
from tests.race.conftest import ROOT, site, surroundings

A_PAID_ORDER = [
    "-c",
    "import django; django.setup(); from tests import builders; builders.a_paid_order(builders.a_day())",
]
DRAIN_LATER = [
    "-c",
    """
import django
django.setup()
from datetime import timedelta
from django.utils import timezone
from bookings.letters.services import sending
from bookings.letters.services.sending import IN_HAND
now = timezone.now()
print(sending.send_due(now=now), sending.send_due(now=now + IN_HAND))
""",
]
MAIN = {"DJANGO_SETTINGS_MODULE": "config.settings"}
PATIENCE = 60


@contextmanager
def a_hung_mail_server():
    """The port of a mail server that never says a word."""
    with socket.create_server(("127.0.0.1", 0), backlog=20) as listening:
        yield listening.getsockname()[1]


def rows_of(url, what):
    with sqlite3.connect(url.removeprefix("sqlite:///")) as connection:
        found = connection.execute(f"SELECT {what} FROM bookings_notice WHERE kind = 'confirmed'").fetchall()
    connection.close()
    return found


def killed_with_a_letter_in_hand(url, folder, port):
    surrounding = surroundings(url, folder, MAIL_URL=f"smtp://127.0.0.1:{port}")
    worker = subprocess.Popen([sys.executable, "manage.py", "drain"], cwd=ROOT, env=surrounding)
    deadline = time.monotonic() + PATIENCE
    while rows_of(url, "claimed_until") == [(None,)] and time.monotonic() < deadline:
        time.sleep(0.05)
    worker.send_signal(signal.SIGKILL)
    worker.wait(10)


def test_what_a_killed_worker_had_in_hand_goes_out_once_its_claim_is_over(sqlite_rows, tmp_path):
    site(sqlite_rows, tmp_path, A_PAID_ORDER, **MAIN)
    with a_hung_mail_server() as port:
        killed_with_a_letter_in_hand(sqlite_rows, tmp_path, port)
    [(claimed, sent, message_id)] = rows_of(sqlite_rows, "claimed_until IS NOT NULL, sent_at, message_id")

    at_once, later = site(sqlite_rows, tmp_path, DRAIN_LATER, **MAIN).split()

    assert (claimed, sent) == (1, None)
    assert (at_once, later) == ("0", "1")
    [letter] = [file.read_text() for file in (tmp_path / "mail").iterdir()]
    assert f"Message-ID: {message_id}" in letter


def test_claim_and_sweep_together_stay_below_a_minute():
    sweep = timedelta(seconds=settings.CELERY_BEAT_SCHEDULE["sweep-due-work"]["schedule"])

    assert IN_HAND + sweep < timedelta(seconds=60)
    # A mail server that hangs is given up sooner than another sender may take the letter.
    assert timedelta(seconds=settings.EMAIL_TIMEOUT) < IN_HAND
