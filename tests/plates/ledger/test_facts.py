"""What an operator notes about a plate can be put right; who did last, and when, is kept, and so is one picture."""

from datetime import timedelta
from decimal import Decimal
from pathlib import Path

import pytest
from django.core.files.storage import storages
from django.db import IntegrityError, transaction

from plates.bench.models import PlateFacts, PlateSlot, Stage
from plates.bench.selectors import facts_of
from plates.errors import PictureRefused
from plates.ledger import pictures
from plates.ledger.selectors import picture_of
from plates.ledger.services import facts
from plates.ledger.services.facts import Noted
from tests import builders
from tests.builders import NOW
from tests.plates.ledger.test_pictures import a_picture

pytestmark = pytest.mark.django_db

LATER = NOW + timedelta(hours=1)
SAID = Noted(
    batch="C 14",
    bath="Bath two",
    bath_seconds=210,
    exposure_seconds=Decimal("4.5"),
    lens="Petzval, no stop",
    developer_seconds=16,
    notes="cold morning",
)


@pytest.fixture
def plate():
    order = builders.a_paid_order(builders.a_day())
    return builders.made_plate(PlateSlot.objects.get(job=order.sitting.bench_job), Stage.FIXED, NOW)


def kept_files():
    return storages[pictures.STORE].listdir("")[1] if storages[pictures.STORE].exists("") else []


def test_what_is_noted_is_kept_with_who_noted_it_and_when(plate):
    operator = builders.an_operator()

    facts.note(plate_id=plate.pk, noted=SAID, operator=operator, now=NOW)

    kept = facts_of(plate=plate)
    assert {name: getattr(kept, name) for name in Noted.__dataclass_fields__} == {
        name: getattr(SAID, name) for name in Noted.__dataclass_fields__
    }
    assert (kept.changed_at, kept.changed_by) == (NOW, operator)


def test_noting_again_puts_right_what_stood_there(plate):
    facts.note(plate_id=plate.pk, noted=SAID, operator=None, now=NOW)
    second = builders.an_operator("second")

    facts.note(plate_id=plate.pk, noted=Noted(batch="C 15"), operator=second, now=LATER)

    kept = PlateFacts.objects.get()
    assert (kept.batch, kept.lens, kept.bath_seconds) == ("C 15", "", None)
    assert (kept.changed_at, kept.changed_by) == (LATER, second)


def test_noting_changes_neither_the_stage_nor_the_history(plate):
    before = (plate.stage, plate.stage_at, plate.events.count())

    facts.note(plate_id=plate.pk, noted=SAID, operator=None, now=LATER)

    plate.refresh_from_db()
    assert (plate.stage, plate.stage_at, plate.events.count()) == before


@pytest.mark.parametrize("name", ["bath_seconds", "exposure_seconds", "developer_seconds"])
def test_the_database_keeps_no_step_that_took_no_time(plate, name):
    with pytest.raises(IntegrityError, match="plate_facts_take_time"), transaction.atomic():
        PlateFacts.objects.create(plate=plate, changed_at=NOW, **{name: 0})


def test_a_picture_is_kept_beside_what_was_noted(plate):
    facts.note(plate_id=plate.pk, noted=SAID, operator=None, now=NOW)

    facts.save_picture(plate_id=plate.pk, content=a_picture(), operator=None, now=LATER)

    assert picture_of(plate=plate) == pictures.clean(a_picture())
    assert facts_of(plate=plate).batch == "C 14"


def test_another_picture_takes_the_place_of_the_first(plate, django_capture_on_commit_callbacks):
    facts.save_picture(plate_id=plate.pk, content=a_picture(), operator=None, now=NOW)
    first = facts_of(plate=plate).picture

    with django_capture_on_commit_callbacks(execute=True):
        facts.save_picture(plate_id=plate.pk, content=a_picture(size=(30, 30)), operator=None, now=LATER)

    assert picture_of(plate=plate) == pictures.clean(a_picture(size=(30, 30)))
    assert first not in kept_files()


def test_a_picture_thrown_away_is_gone_from_the_disk(plate, django_capture_on_commit_callbacks):
    facts.save_picture(plate_id=plate.pk, content=a_picture(), operator=None, now=NOW)
    name = facts_of(plate=plate).picture

    with django_capture_on_commit_callbacks(execute=True):
        facts.remove_picture(plate_id=plate.pk, operator=None, now=LATER)

    assert picture_of(plate=plate) is None
    assert name not in kept_files()


def test_what_is_no_picture_leaves_the_kept_one_where_it_is(plate):
    facts.save_picture(plate_id=plate.pk, content=a_picture(), operator=None, now=NOW)

    with pytest.raises(PictureRefused, match="no JPEG, PNG or WebP"):
        facts.save_picture(plate_id=plate.pk, content=b"<svg/>", operator=None, now=LATER)

    assert picture_of(plate=plate) == pictures.clean(a_picture())


def test_only_the_owner_of_the_files_may_read_them(plate):
    kept = facts.save_picture(plate_id=plate.pk, content=a_picture(), operator=None, now=NOW)

    assert Path(storages[pictures.STORE].path(kept.picture)).stat().st_mode & 0o777 == 0o600
