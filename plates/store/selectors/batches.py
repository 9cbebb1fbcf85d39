"""The batches on the shelf: how much is left, and how each stands on a day."""

from dataclasses import dataclass
from datetime import date

from django.db.models import Prefetch, QuerySet

from plates.store.levels import Level, level
from plates.store.models import Batch, BatchEvent, Solution


@dataclass(frozen=True, slots=True)
class BatchState:
    """A batch with what is left of it (µL) by its counts, and its condition: ripening, ready, past, ended."""

    batch: Batch
    left: Level
    condition: str

    @property
    def usable(self) -> bool:
        return self.condition == "ready" and self.left.left > 0


def condition(*, batch: Batch, on: date) -> str:
    """How a batch stands on a day: "ripening", "ready", "past" its best or "ended"."""
    if batch.ended_at is not None and batch.ended_at.date() <= on:
        return "ended"
    if on < batch.ripe_from:
        return "ripening"
    return "past" if batch.best_before and on >= batch.best_before else "ready"


def left_of(*, batch: Batch) -> Level:
    """What is left of a batch by its counts; needs its events at hand, in order."""
    return level(batch.made_ul, ((event.kind, event.amount_ul) for event in batch.events.all()))


def on_shelf(*, batch: Batch, on: date) -> BatchState:
    return BatchState(batch, left_of(batch=batch), condition(batch=batch, on=on))


def on_the_shelf(*, on: date, kind: str = "") -> list[BatchState]:
    """Every batch that has not ended, in the order of the work, the oldest first; two queries."""
    rows = with_events().filter(ended_at__isnull=True)
    if kind:
        rows = rows.filter(kind=kind)
    order = [solution.value for solution in Solution]
    found = sorted(rows, key=lambda batch: (order.index(batch.kind), batch.mixed_at, batch.pk))
    return [on_shelf(batch=batch, on=on) for batch in found]


def ended(*, newest: int = 20) -> list[Batch]:
    """The batches that ended last, the newest first."""
    return list(Batch.objects.filter(ended_at__isnull=False).order_by("-ended_at", "-pk")[:newest])


def labels() -> dict[str, list[str]]:
    """What stands on the bottles of collodion and the baths that have not ended, the newest first; one query."""
    found: dict[str, list[str]] = {Solution.COLLODION.value: [], Solution.BATH.value: []}
    rows = Batch.objects.filter(ended_at__isnull=True, kind__in=found)
    for kind, label in rows.values_list("kind", "label"):
        found[kind].append(label)
    return found


def with_events() -> QuerySet[Batch]:
    """Batches with their events at hand, in order of time."""
    return Batch.objects.prefetch_related(
        Prefetch("events", BatchEvent.objects.select_related("operator").order_by("at", "pk"))
    )


def next_label(*, kind: str) -> str:
    """A label that is free: a letter for the kind and the next number, for example C 15."""
    letter = kind[:1].upper()
    numbers = [
        int(words)
        for label in Batch.objects.filter(kind=kind, label__startswith=f"{letter} ").values_list(
            "label", flat=True
        )
        if (words := label.removeprefix(f"{letter} ")).isdecimal()
    ]
    return f"{letter} {max(numbers, default=0) + 1}"
