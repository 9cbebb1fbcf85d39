"""How much plate was made in a while, by area: what solutions were used for."""

from collections.abc import Sequence
from datetime import datetime
from fractions import Fraction

from django.db.models import Count, Q

from plates.bench.models import PlateEvent, SpoiltReason, Stage
from plates.store.models import Solution

While = tuple[datetime, datetime | None]

# The stage at which a plate has taken its share of each solution.
TAKEN_AT: dict[str, Stage] = {
    Solution.COLLODION: Stage.POURED,
    Solution.BATH: Stage.SENSITISED,
    Solution.DEVELOPER: Stage.DEVELOPED,
    Solution.FIXER: Stage.FIXED,
    Solution.VARNISH: Stage.VARNISHED,
}


def cm2_made(*, kind: str, whiles: Sequence[While]) -> list[Fraction]:
    """Square centimetres of plate that took a solution of that kind, for each while from and until (None: no end).

    One query for any number of them.
    """
    if not whiles:
        return []
    events = PlateEvent.objects.valid().filter(
        stage=TAKEN_AT[kind], at__gte=min(since for since, _ in whiles)
    )
    poured = events.exclude(plate__spoilt_reason=SpoiltReason.MISTAKE).order_by()
    counts = {f"while_{place}": Count("pk", filter=_within(*each)) for place, each in enumerate(whiles)}
    found = [Fraction(0)] * len(whiles)
    for width, height, *plates in poured.values_list(
        "plate__size__width_mm", "plate__size__height_mm"
    ).annotate(**counts):
        for place, count in enumerate(plates):
            found[place] += Fraction(width) * Fraction(height) / 100 * count
    return found


def _within(since: datetime, until: datetime | None) -> Q:
    return Q(at__gte=since) if until is None else Q(at__gte=since, at__lt=until)
