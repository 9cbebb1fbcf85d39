"""Which plates went through a bath.

A plate went through the bath that is noted for it, else through the one that was in use at its bench when it came out.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction

from plates.bench.models import PlateEvent, Stage
from plates.store.models import Batch, BathCare, Solution

Kind = BathCare.Kind


@dataclass(frozen=True, slots=True)
class Dip:
    """A plate that went through a bath."""

    at: datetime
    number: int
    size: str
    area_cm2: Fraction


def plates_through(*, batch: Batch, now: datetime) -> list[Dip]:
    """The plates that were sensitised in a bath, in order of time; two queries."""
    labels = Batch.objects.filter(kind=Solution.BATH).exclude(pk=batch.pk).values_list("label", flat=True)
    own, others = batch.label.casefold(), {label.casefold() for label in labels}
    used = _uses(batch)
    events = PlateEvent.objects.valid().filter(
        stage=Stage.SENSITISED, at__gte=batch.mixed_at, at__lte=batch.ended_at or now
    )
    rows = events.order_by("at", "pk").values_list(
        "at",
        "plate__number",
        "plate__size__name",
        "plate__size__width_mm",
        "plate__size__height_mm",
        "plate__facts__bath",
        "plate__slot__job__day__bench",
    )
    return [
        Dip(at, number, size, Fraction(width) * Fraction(height) / 100)
        for at, number, size, width, height, noted, bench in rows
        if (named := (noted or "").strip().casefold()) == own or (named not in others and used(bench, at))
    ]


class _Uses:
    """At which bench a bath stood when."""

    def __init__(self, moves: Sequence[tuple[datetime, str, int | None, int]], batch_id: int) -> None:
        self.moves, self.batch_id = moves, batch_id

    def __call__(self, bench_id: int, at: datetime) -> bool:
        """Whether the bath of that id stood at this bench then: put there, and nothing else since."""
        stands = False
        for moved_at, kind, bench, bath in self.moves:
            if moved_at > at:
                break
            if bath == self.batch_id:
                stands = kind == Kind.IN_USE and bench == bench_id
            elif kind == Kind.IN_USE and bench == bench_id:
                stands = False
        return stands


def _uses(batch: Batch) -> _Uses:
    moves = BathCare.objects.filter(kind__in=[Kind.IN_USE, Kind.RESTED]).order_by("at", "pk")
    return _Uses(list(moves.values_list("at", "kind", "bench_id", "batch_id")), batch.pk)
