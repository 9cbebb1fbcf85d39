"""The rehearsal is itself a test of the main job; these check that it says so truly."""

import json
import subprocess
import sys
from datetime import time
from pathlib import Path

import icalendar
import pikepdf
import pytest
from django.core.management import CommandError, call_command
from django.db import transaction

from bookings.diary.services import Hours
from bookings.practice.rehearsal import play
from bookings.practice.rehearsal.summary import differences, summary
from plates.bench.models import Plate, Stage

ROOT = Path(__file__).resolve().parents[3]
# Whether the whole day comes out even the command itself looks at, and fails if it does not.
SHORT = Hours(opens=time(10), closes=time(12, 30), racks_empty_by=time(14))


@pytest.fixture(scope="module")
def papers(tmp_path_factory):
    """The folder that the command leaves behind, and what it printed."""
    out = tmp_path_factory.mktemp("rehearsal") / "papers"
    done = subprocess.run(
        [sys.executable, "manage.py", "rehearse", "--out", str(out), "--closes", "13:00"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return out, done.stdout


def test_the_command_leaves_every_paper(papers):
    out, said = papers

    names = {path.name for path in out.iterdir()}

    assert names == {
        "run-sheet.pdf",
        "invoice.pdf",
        "invoice.xml",
        "pickup-notice.pdf",
        "sitting.ics",
        "summary.txt",
        "letters",
    }
    assert (out / "summary.txt").read_text() in said


@pytest.mark.parametrize("name", ["run-sheet.pdf", "invoice.pdf", "pickup-notice.pdf"])
def test_each_paper_opens_as_a_pdf_with_pages(papers, name):
    out, _ = papers

    with pikepdf.open(out / name) as paper:
        assert len(paper.pages) >= 1


def test_the_calendar_file_is_read_by_the_icalendar_library(papers):
    out, _ = papers

    [event] = icalendar.Calendar.from_ical((out / "sitting.ics").read_bytes()).walk("VEVENT")

    assert event.decoded("DTSTART").date().isoformat() == "2026-06-20"


def test_each_order_brought_two_letters(papers):
    out, said = papers

    letters = sum(path.read_text().count("\nMessage-ID: ") for path in (out / "letters").iterdir())

    assert f"{letters} letters sent." in said
    assert letters == 2 * int(said.split(" sittings sold")[0].rsplit("\n", 1)[-1])


def test_a_folder_that_cannot_be_made_is_refused_with_a_sentence(tmp_path):
    taken = tmp_path / "taken"
    taken.write_text("a file")

    with pytest.raises(CommandError, match="cannot be used as a folder"):
        call_command("rehearse", out=taken)


@pytest.mark.parametrize(
    ("closes", "sentence"),
    [
        ("noon", "--closes is 'noon': write HH:MM, such as 13:00."),
        ("12:29", "--closes: the day opens at 10:00; end it from 12:30 to 18:00."),
        ("18:01", "--closes: the day opens at 10:00; end it from 12:30 to 18:00."),
    ],
)
def test_an_end_that_no_day_has_is_refused_with_a_sentence(tmp_path, closes, sentence):
    with pytest.raises(CommandError) as refused:
        call_command("rehearse", out=tmp_path, closes=closes)

    assert str(refused.value) == sentence


@pytest.fixture(scope="module")
def day_played(django_db_setup, django_db_blocker):
    """One short rehearsal for the tests below, in a transaction that is undone after the last of them."""
    with django_db_blocker.unblock(), transaction.atomic():
        yield play(when_ready=lambda order, now: None, hours=SHORT)
        transaction.set_rollback(True)


@pytest.fixture
def played(day_played, db):
    """The rehearsal; what a test changes is undone after it."""
    return day_played


def test_a_short_day_comes_out_even(played):
    assert differences(played) == []


def test_the_spoilt_plate_was_made_again(played):
    [spoilt] = played.spoilt

    again = Plate.objects.exclude(stage=Stage.SPOILT).get(slot=spoilt.slot)

    assert again.stage == Stage.HANDED_OVER
    assert again.number > spoilt.number


def test_a_plate_left_on_the_rack_is_told(played):
    Plate.objects.filter(number=1).update(stage=Stage.READY)

    assert "A plate was neither handed over nor spoilt." in differences(played)


def test_a_plan_that_was_tampered_with_is_told(played):
    job = played.sold.orders[0].sitting.bench_job
    plan = json.loads(json.dumps(job.plan))
    plan["plates"][0]["wash_in"] += 1
    type(job).objects.filter(pk=job.pk).update(plan=plan)

    assert differences(played) != []


def test_the_summary_names_no_sitter(played):
    text = summary(played)

    assert not any(order.client.name in text for order in played.sold.orders)
