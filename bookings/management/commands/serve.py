"""Run the site: the web server, and beside it the one who sends what is due."""

import socket
import sys
from argparse import ArgumentParser
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError

from bookings.management.supervisor import Program, Supervisor


class Command(BaseCommand):
    help = "Run the site and the sending of notices until Ctrl-C or SIGTERM."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--address", default="127.0.0.1:8000", help="HOST:PORT to listen on")
        parser.add_argument("--workers", type=int, default=2, help="web processes, of four threads each")

    def handle(self, *args: Any, address: str, workers: int, **options: Any) -> None:
        refuse_unusable(address)
        supervisor = Supervisor(
            site=web(address, workers), helper=helper(), folder=settings.BASE_DIR, say=self.stderr.write
        )
        if code := supervisor.run():
            raise SystemExit(code)


def refuse_unusable(address: str) -> None:
    """Raise CommandError for an address that is no HOST:PORT, or that another program listens on."""
    host, _, port = address.rpartition(":")
    if not host or not port.isdigit():
        raise CommandError(f"--address is {address!r}: write HOST:PORT, such as 127.0.0.1:8000.")
    with socket.socket() as door:
        door.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            door.bind((host, int(port)))
        except (OSError, OverflowError) as error:
            raise CommandError(
                f"The site cannot listen on {address}: {error}. Choose another port."
            ) from error


def web(address: str, workers: int) -> Program:
    # A thread waits for each open page; processes share the cores. No control socket: its place is shared by
    # all gunicorns of one user.
    how = ("--worker-class", "gthread", "--threads", "4", "--workers", str(workers), "--no-control-socket")
    quiet = ("--log-level", "warning")
    command = (sys.executable, "-m", "gunicorn", "config.wsgi", "--bind", address, *how, *quiet)
    return Program("the web server", command)


def helper() -> Program:
    """Return who sends what is due: with a broker a Celery worker that has the beat, without one `drain`."""
    if not settings.REDIS_URL:
        drain = (sys.executable, "manage.py", "drain", "--forever")
        return Program("the sending of notices", drain)
    beat = ("-B", "--schedule", str(settings.DATA_DIR / "beat-schedule"))
    worker = ("worker", "--pool", "threads", "--concurrency", "2", "--loglevel", "warning")
    return Program("the worker", (sys.executable, "-m", "celery", "-q", "-A", "config", *worker, *beat))
