"""What was noted about a plate, and its picture. Nothing here writes."""

from django.core.files.storage import storages

from plates.models import BenchDay, Plate, PlateFacts, Stage
from plates.pictures import STORE


def facts_of(*, plate: Plate) -> PlateFacts | None:
    """What was noted, with who noted it last; None when nothing was."""
    return PlateFacts.objects.select_related("changed_by").filter(plate=plate).first()


def made_on(*, day: BenchDay) -> list[Plate]:
    """The plates of a day that were not given up, by their numbers, with size and facts at hand; one query."""
    plates = Plate.objects.filter(slot__job__day=day).exclude(stage=Stage.SPOILT)
    return list(plates.select_related("size", "facts").order_by("number"))


def picture_of(*, plate: Plate) -> bytes | None:
    """The kept JPEG of a plate; None when there is none, or its file has gone."""
    facts = facts_of(plate=plate)
    if facts is None or not facts.picture or not storages[STORE].exists(facts.picture):
        return None
    with storages[STORE].open(facts.picture) as kept:
        return bytes(kept.read())
