"""For how many plates the solutions of a day are enough, beside how many it needs."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from plates.bench.models import BenchDay, PlateSize
from plates.budgets.pools import LIGHT, STRENGTH, Asked, Laid, Pools, pools_of, still_to_pour
from plates.chemistry.stock.pools import OnHand, Pool
from plates.common.stock_words import bath_words
from plates.store.models import Solution


@dataclass(frozen=True, slots=True)
class NotCounted:
    """A bottle that is of no use on the day: ripe only from `ripe_from`, or past its best (None)."""

    left_ul: int
    ripe_from: date | None


@dataclass(frozen=True, slots=True)
class DayLevel:
    """One solution on one day, in plates of a size; plates that will be spoilt are counted in what is needed.

    takes_ul: what a plate of that size takes, None of a bath. learned_cm2: how much plate of the studio's taught that.
    """

    solution: str
    size: str
    enough_for: int
    needed: int
    not_counted: tuple[NotCounted, ...]
    takes_ul: int | None
    learned_cm2: int

    @property
    def short(self) -> bool:
        return self.needed > self.enough_for


def levels_of_day(*, day: BenchDay, now: datetime) -> list[DayLevel]:
    """Each solution that limits the bench and of which a batch was written down, as it stands on that day."""
    return levels(days=[day], now=now)[day.pk]


def short_of(*, days: Sequence[BenchDay], now: datetime) -> dict[int, list[DayLevel]]:
    """What each day, by its id, has too little of; as many queries for any number of days."""
    found = levels(days=days, now=now)
    return {pk: [level for level in each if level.short] for pk, each in found.items()}


def levels(*, days: Sequence[BenchDay], now: datetime) -> dict[int, list[DayLevel]]:
    """The levels of each day by its id."""
    pools = pools_of(benches={day.bench_id: day.bench for day in days}.values(), now=now)
    laid = pools.laid_against(still_to_pour(now=now) if pools else Counter())
    return {day.pk: _levels(laid, day) for day in days}


def _levels(laid: Laid, day: BenchDay) -> list[DayLevel]:
    size = _size(laid.pools, laid.asked, day.on)
    if size is None:
        return []
    baths = (STRENGTH, LIGHT) if day.bench.minds_its_bath else ()
    return [
        _level(laid.pools, name, pool, day, size)
        for name in (*day.bench.limiting(), *baths)
        if (pool := laid.pool(name, day.bench))
    ]


def _level(pools: Pools, name: str, pool: Pool, day: BenchDay, size: PlateSize) -> DayLevel:
    has, needs = pool.level(day.on)
    a_plate = max(1, pools.use[name][size.pk])
    bath = bath_words(name)
    return DayLevel(
        solution=bath or str(Solution(name).label),
        size=size.name,
        enough_for=has // a_plate,
        needed=-(-needs // a_plate),
        not_counted=tuple(_not_counted(each, day.on) for each in pool.stock if not each.counts(day.on)),
        takes_ul=None if bath else a_plate,
        learned_cm2=int(pools.learned_cm2.get(name, 0)),
    )


def _not_counted(bottle: OnHand, on: date) -> NotCounted:
    return NotCounted(bottle.left, bottle.ripe_from if on < bottle.ripe_from else None)


def _size(pools: Pools, asked: Asked, on: date) -> PlateSize | None:
    """The size promised most often on the day; while none is, the largest that is offered."""
    counts: Counter[int] = Counter()
    for (day, size, _bench), plates in asked.items():
        counts[size] += plates if day == on else 0
    counts = +counts
    if counts:
        return pools.sizes.get(counts.most_common(1)[0][0])
    offered = [size for size in pools.sizes.values() if size.offered]
    return max(offered, key=lambda size: size.area_cm2, default=None)
