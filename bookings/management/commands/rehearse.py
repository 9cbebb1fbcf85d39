"""Play an invented day on a scratch database and keep its papers: the smoke test, and what a newcomer runs first."""

import tempfile
from argparse import ArgumentParser
from dataclasses import replace
from datetime import UTC, datetime, time, timedelta
from functools import partial
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandError
from django.db import connections
from django.db.utils import ConnectionHandler

from bookings.day import run_sheet as documents
from bookings.diary.services import Hours
from bookings.handover import papers as pickup_notices
from bookings.invoices.paper import invoice_pdf
from bookings.invoices.selectors.einvoices import einvoice
from bookings.orders import ics
from bookings.orders.models import Order
from bookings.practice.rehearsal import Rehearsal, play
from bookings.practice.rehearsal.day import HOURS
from bookings.practice.rehearsal.summary import differences, summary
from config.databases import configured

# Three sittings at least are played: one of them has the plate that is spoilt.
EARLIEST_END = time(12, 30)
RACKS_EMPTY_AFTER = timedelta(minutes=75)


class Command(BaseCommand):
    help = "Play an invented day, from bookings to plates handed over, and write its papers to a folder."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument(
            "--out", type=Path, required=True, help="folder for the papers; made if it is missing"
        )
        parser.add_argument(
            "--closes",
            default=f"{HOURS.closes:%H:%M}",
            help="when the day ends; an early end is played sooner",
        )

    def handle(self, *args: Any, out: Path, closes: str, **options: Any) -> None:
        hours = hours_until(closes)
        try:
            out.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise CommandError(f"--out: {out} cannot be used as a folder ({error.strerror}).") from error
        with tempfile.TemporaryDirectory(prefix="silver-hour-rehearsal-") as scratch:
            use_scratch_database(Path(scratch))
            settings.EMAIL_BACKEND = "django.core.mail.backends.filebased.EmailBackend"
            settings.EMAIL_FILE_PATH = out / "letters"
            call_command("migrate", verbosity=0)
            rehearsal = play(when_ready=partial(write_pickup_notice, out), hours=hours)
            write_papers(rehearsal, out)
            found = differences(rehearsal)
            connections.close_all()
        self.stdout.write((out / "summary.txt").read_text())
        if found:
            raise CommandError("The day did not come out even: " + " ".join(found))
        self.stdout.write(f"Papers are in {out}")


def hours_until(closes: str) -> Hours:
    """The hours of the day until then, with the plates dry as long afterwards as on the whole day."""
    try:
        end = datetime.strptime(closes, "%H:%M").replace(tzinfo=UTC)
    except ValueError as error:
        raise CommandError(f"--closes is {closes!r}: write HH:MM, such as 13:00.") from error
    if not EARLIEST_END <= end.time() <= HOURS.closes:
        raise CommandError(
            f"--closes: the day opens at {HOURS.opens:%H:%M}; end it from {EARLIEST_END:%H:%M} to {HOURS.closes:%H:%M}."
        )
    return replace(HOURS, closes=end.time(), racks_empty_by=(end + RACKS_EMPTY_AFTER).time())


def use_scratch_database(folder: Path) -> None:
    """Point this process at an empty SQLite file; the studio's own database is not touched."""
    connections.close_all()
    scratch = ConnectionHandler({"default": configured(f"sqlite:///{folder / 'rehearsal.sqlite3'}", folder)})
    connections.settings["default"] = scratch.settings["default"]
    del connections["default"]


def write_pickup_notice(out: Path, order: Order, now: datetime) -> None:
    (out / "pickup-notice.pdf").write_bytes(pickup_notices.pickup_notice_pdf(order, now=now))


def write_papers(rehearsal: Rehearsal, out: Path) -> None:
    first = rehearsal.sold.orders[0]
    papers = {
        "run-sheet.pdf": documents.run_sheet_pdf(rehearsal.day, now=rehearsal.day.bench_day.opens_at),
        "invoice.pdf": invoice_pdf(rehearsal.invoices[0]),
        "invoice.xml": einvoice(rehearsal.invoices[0]),
        "sitting.ics": ics.sitting_calendar(first, now=rehearsal.day.bench_day.opens_at),
        "summary.txt": summary(rehearsal).encode(),
    }
    for name, content in papers.items():
        (out / name).write_bytes(content)
