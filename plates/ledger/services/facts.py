"""Noting facts of a plate and keeping its picture. What is noted may be put right: who did last, and when, is kept."""

from dataclasses import asdict, dataclass
from datetime import datetime
from decimal import Decimal
from functools import partial
from uuid import uuid4

from django.contrib.auth.models import User
from django.core.files.base import ContentFile
from django.core.files.storage import storages
from django.db import transaction

from plates.bench.models import PlateFacts
from plates.ledger import pictures
from plates.ledger.services import events as ledger


@dataclass(frozen=True, slots=True)
class Noted:
    """What an operator says about a plate; empty and None: not noted. Times in seconds."""

    batch: str = ""
    bath: str = ""
    bath_seconds: int | None = None
    exposure_seconds: Decimal | None = None
    lens: str = ""
    developer_seconds: int | None = None
    notes: str = ""


@transaction.atomic
def note(*, plate_id: int, noted: Noted, operator: User | None, now: datetime) -> PlateFacts:
    """Write the facts of a plate down in place of what stood there."""
    return _write(plate_id, asdict(noted), operator, now)


@transaction.atomic
def save_picture(*, plate_id: int, content: bytes, operator: User | None, now: datetime) -> PlateFacts:
    """Keep a picture of a plate in place of any earlier one. PictureRefused when it is none that can be kept."""
    cleaned = pictures.clean(content)
    # Written before the row that names it: a file without a row is lost room, a row without a file a lost picture.
    name = storages[pictures.STORE].save(f"{uuid4().hex}.jpg", ContentFile(cleaned))
    return _change_picture(plate_id, name, operator, now)


@transaction.atomic
def remove_picture(*, plate_id: int, operator: User | None, now: datetime) -> PlateFacts:
    """Throw the picture of a plate away; nothing happens to the rest of its facts."""
    return _change_picture(plate_id, "", operator, now)


def _change_picture(plate_id: int, name: str, operator: User | None, now: datetime) -> PlateFacts:
    ledger.locked(plate_id=plate_id)
    before = PlateFacts.objects.filter(plate_id=plate_id).values_list("picture", flat=True).first()
    if before:
        transaction.on_commit(partial(storages[pictures.STORE].delete, before))
    return _write(plate_id, {"picture": name}, operator, now)


def _write(plate_id: int, facts: dict[str, object], operator: User | None, now: datetime) -> PlateFacts:
    ledger.locked(plate_id=plate_id)
    changed = facts | {"changed_at": now, "changed_by": operator}
    return PlateFacts.objects.update_or_create(plate_id=plate_id, defaults=changed)[0]
