"""The machines that some tests need: a throw-away PostgreSQL and Redis, on free ports of this computer only.

    python -m tests.machines COMMAND ...                     runs COMMAND with both, then stops them
    python -m tests.machines --site-on-postgres COMMAND ...  the same, with the site itself on PostgreSQL
    python -m tests.machines --missing                       prints the Debian packages to install

COMMAND finds their addresses in SILVER_HOUR_TEST_POSTGRES and SILVER_HOUR_TEST_REDIS. What is not installed
is not started, and its variable is not set. Only the standard library is used.
"""

import os
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
import time
from contextlib import ExitStack, contextmanager
from pathlib import Path

POSTGRES = "SILVER_HOUR_TEST_POSTGRES"
REDIS = "SILVER_HOUR_TEST_REDIS"
START_SECONDS = 30
# Rows that are thrown away need not survive a power cut.
CARELESS = ["fsync=off", "synchronous_commit=off", "full_page_writes=off", "max_connections=200"]


def chromium():
    """Return the path of a Chromium or Chrome, or None. The one without windows of its own opens pages in a third of
    the time."""
    names = ("chromium-headless-shell", "chromium", "chromium-browser", "google-chrome")
    return next(filter(None, map(shutil.which, names)), None)


def postgres_programs():
    """Return the folder that holds initdb and postgres, the newest version first, or None."""
    versions = sorted(Path("/usr/lib/postgresql").glob("*/bin"), key=lambda folder: float(folder.parent.name))
    on_path = shutil.which("initdb")
    folders = [*reversed(versions), *([Path(on_path).resolve().parent] if on_path else [])]
    return next((folder for folder in folders if (folder / "initdb").exists()), None)


def missing_packages():
    """Return the Debian names of what the tests need and this computer lacks."""
    found = {
        "chromium-headless-shell": chromium(),
        "postgresql": postgres_programs(),
        "redis-server": shutil.which("redis-server"),
        "poppler-utils": shutil.which("pdftotext"),  # reads back what the papers say
    }
    return [package for package, place in found.items() if not place]


def free_port():
    with socket.socket() as door:
        door.bind(("127.0.0.1", 0))
        return door.getsockname()[1]


@contextmanager
def scratch_folder(owner=None):
    folder = Path(tempfile.mkdtemp(prefix="silver-hour-"))
    if owner:
        shutil.chown(folder, owner)
    try:
        yield folder
    finally:
        shutil.rmtree(folder, ignore_errors=True)


@contextmanager
def running(command, *, ready, log, stop_signal, **how):
    """Run `command` until the block ends. Raises RuntimeError, with its last words, if it does not start."""
    with log.open("wb") as words:
        # A session of its own: Ctrl-C reaches the tests first, and this only when they are done.
        process = subprocess.Popen(command, stdout=words, stderr=words, start_new_session=True, **how)
        try:
            deadline = time.monotonic() + START_SECONDS
            while not ready():
                if process.poll() is not None or time.monotonic() > deadline:
                    raise RuntimeError(f"{command[0]} did not start: {log.read_text()[-600:]}")
                time.sleep(0.1)
            yield
        finally:
            process.send_signal(stop_signal)
            try:
                process.wait(10)
            except subprocess.TimeoutExpired:
                process.kill()
                process.wait()


def as_postgres_likes_it(folder, owner):
    """Return how PostgreSQL's programs are run: in `folder`, as `owner`, in no particular language."""
    how = {"cwd": folder, "env": {**os.environ, "LC_ALL": "C.UTF-8"}}
    return how | {"user": owner, "group": owner, "extra_groups": []} if owner else how


@contextmanager
def postgres():
    """Yield the address of an empty database on a PostgreSQL of its own."""
    programs, port = postgres_programs(), free_port()
    # PostgreSQL refuses to run as root; its Debian package brings the user.
    owner = "postgres" if os.getuid() == 0 else None
    at = ["-h", "127.0.0.1", "-p", str(port), "-U", "silver_hour"]
    with scratch_folder(owner) as folder:
        rows, how = folder / "rows", as_postgres_likes_it(folder, owner)

        def tool(name, *arguments):
            done = subprocess.run([programs / name, *arguments], capture_output=True, check=False, **how)
            return done.returncode == 0

        tool("initdb", "-D", rows, "-U", "silver_hour", "-A", "trust", "-E", "UTF8", "--no-locale", "-N")
        settings = [f"port={port}", "listen_addresses=127.0.0.1", "unix_socket_directories=", *CARELESS]
        command = [programs / "postgres", "-D", rows, *(f"--{setting}" for setting in settings)]
        # SIGINT is the "fast" shutdown, which does not wait for clients (PostgreSQL 15 manual, 19.5).
        parts = {"log": folder / "log", "stop_signal": signal.SIGINT}
        with running(command, ready=lambda: tool("pg_isready", *at, "-d", "postgres"), **parts, **how):
            tool("createdb", *at, "silver_hour")
            yield f"postgresql://silver_hour@127.0.0.1:{port}/silver_hour"


@contextmanager
def redis():
    """Yield the address of an empty Redis that keeps nothing."""
    port = free_port()

    def ready():
        try:
            with socket.create_connection(("127.0.0.1", port), timeout=1) as line:
                line.sendall(b"PING\r\n")
                return line.recv(16).startswith(b"+PONG")
        except OSError:
            return False

    with scratch_folder() as folder:
        keep_nothing = ["--save", "", "--appendonly", "no"]
        command = ["redis-server", "--port", str(port), "--bind", "127.0.0.1", *keep_nothing]
        with running(command, ready=ready, log=folder / "log", stop_signal=signal.SIGTERM, cwd=folder):
            yield f"redis://127.0.0.1:{port}"


def run(command):
    """Run `command` to its end and return its exit code; being told to stop is passed on to it."""
    process = subprocess.Popen(command)
    signal.signal(signal.SIGINT, lambda *_: None)  # the terminal has told the command as well
    for told in (signal.SIGTERM, signal.SIGHUP):
        signal.signal(told, lambda number, _: process.send_signal(number))
    code = process.wait()
    return code if code >= 0 else 128 - code  # ended by a signal: the number a shell gives it


def main(arguments):
    if arguments == ["--missing"]:
        sys.stdout.writelines(f"{package}\n" for package in missing_packages())
        return 0
    # Told to stop while a machine starts: leave by the way that stops what has started.
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(143))
    site_on_postgres = arguments[:1] == ["--site-on-postgres"]
    command = arguments[1:] if site_on_postgres else arguments
    missing = missing_packages()
    with ExitStack() as machines:
        if "postgresql" not in missing:
            os.environ[POSTGRES] = machines.enter_context(postgres())
        if "redis-server" not in missing:
            os.environ[REDIS] = machines.enter_context(redis())
        if site_on_postgres:
            os.environ["DATABASE_URL"] = os.environ[POSTGRES]
        return run(command)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
