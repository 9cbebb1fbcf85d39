"""What was noted about a plate. Nothing here writes."""

from plates.bench.models import BenchDay, Plate, PlateFacts, Stage


def facts_of(*, plate: Plate) -> PlateFacts | None:
    """What was noted, with who noted it last; None when nothing was."""
    return PlateFacts.objects.select_related("changed_by").filter(plate=plate).first()


def made_on(*, day: BenchDay) -> list[Plate]:
    """The plates of a day that were not given up, by their numbers, with size and facts at hand; one query."""
    plates = Plate.objects.filter(slot__job__day=day).exclude(stage=Stage.SPOILT)
    return list(plates.select_related("size", "facts").order_by("number"))
