"""What was noted about a plate, and its picture. Nothing here writes."""

from django.core.files.storage import storages

from plates.bench.models import Plate
from plates.bench.selectors.facts import facts_of
from plates.ledger.pictures import STORE


def picture_of(*, plate: Plate) -> bytes | None:
    """The kept JPEG of a plate; None when there is none, or its file has gone."""
    facts = facts_of(plate=plate)
    if facts is None or not facts.picture or not storages[STORE].exists(facts.picture):
        return None
    with storages[STORE].open(facts.picture) as kept:
        return bytes(kept.read())
