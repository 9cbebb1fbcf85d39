"""For how many plates the solutions of a day are enough, beside how many it needs. Nothing here writes."""

from collections import Counter
from dataclasses import dataclass
from datetime import date, datetime

from plates.chemistry.pools import OnHand
from plates.models import BenchDay, PlateSize, Solution
from plates.selectors.pools import Pools, pools_of
from plates.selectors.promised_area import Asked, still_to_pour


@dataclass(frozen=True, slots=True)
class NotCounted:
    """A bottle that is of no use on the day: ripe only from `ripe_from`, or past its best (None)."""

    left_ul: int
    ripe_from: date | None


@dataclass(frozen=True, slots=True)
class DayLevel:
    """One solution on one day, in plates of a size; plates that will be spoilt are counted in what is needed."""

    solution: str
    size: str
    enough_for: int
    needed: int
    not_counted: tuple[NotCounted, ...]

    @property
    def short(self) -> bool:
        return self.needed > self.enough_for


def levels_of_day(*, day: BenchDay, now: datetime) -> list[DayLevel]:
    """Each solution that limits the bench and of which a batch was written down, as it stands on that day."""
    pools = pools_of(kinds=day.bench.limiting(), now=now)
    asked = still_to_pour(now=now)
    size = _size(pools, asked, day.on)
    if size is None:
        return []
    return [_level(pools, kind, day, asked, size) for kind in day.bench.limiting() if kind in pools.bottles]


def _level(pools: Pools, kind: str, day: BenchDay, asked: Asked, size: PlateSize) -> DayLevel:
    has, needs = pools.pool(kind, day.bench, asked).standing(day.on)
    a_plate = max(1, pools.use[kind][size.pk])
    return DayLevel(
        solution=str(Solution(kind).label),
        size=size.name,
        enough_for=has // a_plate,
        needed=-(-needs // a_plate),
        not_counted=tuple(
            _not_counted(each, day.on) for each in pools.bottles[kind] if not each.counts(day.on)
        ),
    )


def _not_counted(bottle: OnHand, on: date) -> NotCounted:
    return NotCounted(bottle.left, bottle.ripe_from if on < bottle.ripe_from else None)


def _size(pools: Pools, asked: Asked, on: date) -> PlateSize | None:
    """The size promised most often on the day; while none is, the largest that is offered."""
    counts = Counter({size: plates for (day, size), plates in asked.items() if day == on})
    if counts:
        return pools.sizes.get(counts.most_common(1)[0][0])
    offered = [size for size in pools.sizes.values() if size.offered]
    return max(offered, key=lambda size: size.area_cm2, default=None)
