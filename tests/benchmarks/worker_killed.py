"""python -m tests.machines python -m tests.benchmarks.worker_killed: how long after a kill -9 a letter goes
out, for real.

A Celery worker with its beat is held up by a mail server that never says a word, and killed with the letter in its
hands. Another worker is started at once, as a supervisor would, with a mail folder that works; then the clock on the
wall is watched. Needs the Redis of `tests.machines`.
"""

import os
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from tests import machines
from tests.race.conftest import ROOT, site, surroundings

WORKER = [sys.executable, "-m", "celery", "-A", "config", "worker", "--pool", "threads", "-B"]


def started(url: str, folder: Path, **more: str) -> "subprocess.Popen[bytes]":
    command = [*WORKER, "--loglevel", "error", "--schedule", str(folder / "beat")]
    return subprocess.Popen(command, cwd=ROOT, env=surroundings(url, folder, **more))


def main() -> None:
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "config.settings")
    import django

    django.setup()
    from tests.race.test_worker_killed import A_PAID_ORDER, MAIN, a_hung_mail_server, rows_of

    redis = f"{os.environ[machines.REDIS]}/0"
    with tempfile.TemporaryDirectory() as name, a_hung_mail_server() as port:
        folder = Path(name)
        url = f"sqlite:///{folder / 'rows.sqlite3'}"
        site(url, folder, ["manage.py", "migrate", "--verbosity", "0"])
        site(url, folder, A_PAID_ORDER, **MAIN)
        worker = started(url, folder, REDIS_URL=redis, MAIL_URL=f"smtp://127.0.0.1:{port}")
        while rows_of(url, "claimed_until") == [(None,)]:
            time.sleep(0.05)
        worker.send_signal(signal.SIGKILL)
        killed = time.monotonic()
        worker.wait()
        other = started(url, folder, REDIS_URL=redis)
        while rows_of(url, "sent_at") == [(None,)] and time.monotonic() < killed + 120:
            time.sleep(0.1)
        sys.stdout.write(f"sent {time.monotonic() - killed:.1f} s after the kill\n")
        other.terminate()
        other.wait(30)


if __name__ == "__main__":
    main()
