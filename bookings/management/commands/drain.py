"""Do what is due: confirm what was paid, tell whose plates are ready, send the letters. No broker is needed."""

import signal
import time
from argparse import ArgumentParser
from types import FrameType
from typing import Any

from django.core.management.base import BaseCommand
from django.db import OperationalError, close_old_connections
from django.utils import timezone

from bookings.drain import drain

PAUSE = 2.0  # seconds between two looks at the rows


class Command(BaseCommand):
    help = "Do all due work once, or with --forever every two seconds."
    stopping = False

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--forever", action="store_true", help="keep looking until stopped")

    def handle(self, *args: Any, forever: bool, **options: Any) -> None:
        if not forever:
            self.stdout.write(f"{drain(now=timezone.now())} letters sent")
            return
        signal.signal(signal.SIGTERM, self._stop)
        signal.signal(signal.SIGINT, self._stop)
        while not self.stopping:
            self._drain_once()
            time.sleep(PAUSE)

    def _drain_once(self) -> None:
        close_old_connections()
        try:
            drain(now=timezone.now())
        except OperationalError as error:  # the database is away for a moment: the rows will still be there
            self.stderr.write(f"the database did not answer: {error}")

    def _stop(self, number: int, frame: FrameType | None) -> None:
        """Finish the letter in hand, then leave."""
        self.stopping = True
