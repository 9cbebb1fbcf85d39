"""The bottles and baths that limit a day, laid against all that is promised."""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from fractions import Fraction
from math import ceil

from django.db.models import Count

from plates.bench.models import Bench, BenchJob, PlateSize, PlateSlot
from plates.budgets.baths_left import BathLeft, bath_left
from plates.chemistry.stock.pools import Need, OnHand, Pool
from plates.store.models import Batch, Solution
from plates.store.selectors import own_rates
from plates.store.selectors.bottles import batches, on_hand
from plates.store.selectors.supplies import figures

UL_IN_ML = 1000
MM2_IN_CM2 = 100
# What a bath runs out of; in square millimetres of plate.
STRENGTH, LIGHT = "bath strength", "bath light"


# A day, the id of a size, the id of a bench.
Asked = Counter[tuple[date, int, int]]


@dataclass(frozen=True, slots=True)
class Pools:
    """By kind of solution: what is in its bottles in microlitres. By bench: how much plate its bath still takes.

    `use` is what a plate of each size (by id) takes, of a solution or of a bath; `learned_cm2` how much plate of
    the studio's own taught that.
    """

    bottles: Mapping[str, tuple[OnHand, ...]]
    baths: Mapping[int, BathLeft]
    use: Mapping[str, Mapping[int, int]]
    sizes: Mapping[int, PlateSize]
    learned_cm2: Mapping[str, Fraction]

    def __bool__(self) -> bool:
        return bool(self.bottles or self.baths)

    def laid_against(self, asked: Asked) -> "Laid":
        """All of it with what is promised of it."""
        return Laid(self, asked)

    def stock(self, name: str, bench: Bench) -> tuple[OnHand, ...] | None:
        """What is left of a solution, or of the bench's bath; None where it limits nothing."""
        if name not in (STRENGTH, LIGHT):
            return self.bottles.get(name)
        bath = self.baths.get(bench.pk)
        if bath is None:
            return None
        left = bath.until_weak_cm2 if name == STRENGTH else bath.until_light_cm2
        return None if left is None else (OnHand(left * MM2_IN_CM2, date.min),)


class Laid:
    """Bottles and baths with all that is promised of them; each is put together once, however many days ask."""

    def __init__(self, pools: Pools, asked: Asked) -> None:
        self.pools, self.asked = pools, asked
        self._known: dict[tuple[str, int], Pool | None] = {}

    def pool(self, name: str, bench: Bench) -> Pool | None:
        """One solution, or the bench's bath, and what is promised of it; None where it limits nothing.

        Spoilt plates are reckoned with as that bench reckons them.
        """
        key = (name, bench.pk)
        if key not in self._known:
            self._known[key] = self._pool(name, bench)
        return self._known[key]

    def _pool(self, name: str, bench: Bench) -> Pool | None:
        stock = self.pools.stock(name, bench)
        if stock is None:
            return None
        use = self.pools.use[name]
        own = name in (STRENGTH, LIGHT)
        needs = Counter[date]()
        for (on, size, at), plates in self.asked.items():
            if not own or at == bench.pk:
                needs[on] += use[size] * plates
        return Pool(
            stock,
            tuple(Need(on, units) for on, units in needs.items()),
            a_plate=self._usual_plate(use),
            spoilt_per_cent=bench.retake_chance,
            sure_per_cent=bench.spares_sure,
        )

    def _usual_plate(self, use: Mapping[int, int]) -> int:
        """What the plates take on the average that are promised or, while none is, those that are offered."""
        counts: Counter[int] = Counter()
        for (_on, size, _bench), number in self.asked.items():
            counts[size] += number
        counts = counts or Counter(pk for pk, size in self.pools.sizes.items() if size.offered)
        plates = counts.total()
        return max(1, sum(use[size] * count for size, count in counts.items()) // plates) if plates else 1


def pools_of(*, benches: Iterable[Bench], now: datetime) -> Pools:
    """Read bottles and baths. A kind of which no batch was ever written down is left out: it limits nothing."""
    benches = list(benches)
    kinds = {kind for bench in benches for kind in bench.limiting()}
    minded = [bench for bench in benches if bench.minds_its_bath]
    found = batches(kinds={*kinds, Solution.BATH.value} if minded else kinds, now=now)
    baths = _baths(minded, now) if found.pop(Solution.BATH.value, None) else {}
    if not found and not baths:
        return Pools({}, {}, {}, {}, {})
    return _read(found, baths)


def _read(found: Mapping[str, list[Batch]], baths: Mapping[int, BathLeft]) -> Pools:
    sizes = {size.pk: size for size in PlateSize.objects.all()}
    learned = {kind: own_rates.rate(kind=kind, found=each) for kind, each in found.items()}
    rates = {kind: each.ml_a_cm2 * UL_IN_ML for kind, each in learned.items()}
    areas = {name: Fraction(MM2_IN_CM2) for name in (STRENGTH, LIGHT)}
    return Pools(
        {kind: on_hand(kind=kind, found=each, ul_a_cm2=rates[kind]) for kind, each in found.items()},
        baths,
        {
            name: {pk: units(size, rate) for pk, size in sizes.items()}
            for name, rate in {**rates, **areas}.items()
        },
        sizes,
        {kind: each.learned_from_cm2 for kind, each in learned.items()},
    )


def _baths(benches: Iterable[Bench], now: datetime) -> dict[int, BathLeft]:
    room = figures()
    found = ((bench.pk, bath_left(bench_id=bench.pk, room=room, now=now)) for bench in benches)
    return {pk: bath for pk, bath in found if bath is not None}


def units(size: PlateSize, for_each_cm2: Fraction) -> int:
    """Whole units that one plate of a size takes, of what is counted by area."""
    return ceil(Fraction(size.width_mm) * Fraction(size.height_mm) / 100 * for_each_cm2)


def still_to_pour(*, now: datetime, excluding_job: int | None = None) -> Asked:
    """Plates promised at `now` on days that are not over, those made again too; `excluding_job` leaves one job out."""
    promised = BenchJob.objects.promised(now).filter(day__closes_at__gt=now).order_by()
    if excluding_job is not None:
        promised = promised.exclude(pk=excluding_job)
    slots = PlateSlot.objects.filter(job__in=promised, given_up_at__isnull=True, plates__isnull=True)
    again = promised.filter(retake_of__isnull=False, begun_at__isnull=True)
    found: Asked = Counter()
    for rows in (
        slots.order_by()
        .values_list("job__day__on", "size_id", "job__day__bench_id")
        .annotate(number=Count("pk")),
        again.values_list("day__on", "retake_of__size_id", "day__bench_id").annotate(number=Count("pk")),
    ):
        for on, size, bench, number in rows:
            found[on, size, bench] += number
    return found
