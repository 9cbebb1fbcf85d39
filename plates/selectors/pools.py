"""The bottles of the solutions that limit a day, laid against all that is promised. Nothing here writes."""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction
from math import ceil

from plates.chemistry.pools import Need, OnHand, Pool
from plates.models import Bench, PlateSize
from plates.selectors import own_rates
from plates.selectors.bottles import batches, on_hand
from plates.selectors.promised_area import Asked

UL_IN_ML = 1000


@dataclass(frozen=True, slots=True)
class Pools:
    """By kind of solution: what is in its bottles in microlitres, and what a plate of each size (by id) takes."""

    bottles: Mapping[str, tuple[OnHand, ...]]
    use: Mapping[str, Mapping[int, int]]
    sizes: Mapping[int, PlateSize]

    def pool(self, kind: str, bench: Bench, asked: Asked) -> Pool:
        """One solution and all that is promised of it, with spoilt plates reckoned as that bench reckons them."""
        use = self.use[kind]
        needs = tuple(Need(on, use[size] * plates) for (on, size), plates in asked.items())
        return Pool(
            self.bottles[kind],
            needs,
            a_plate=self._usual_plate(kind, asked),
            spoilt_per_cent=bench.retake_chance,
            sure_per_cent=bench.spares_sure,
        )

    def _usual_plate(self, kind: str, asked: Asked) -> int:
        """What the plates take on the average that are promised or, while none is, those that are offered."""
        use = self.use[kind]
        counts: Counter[int] = Counter()
        for (_, size), number in asked.items():
            counts[size] += number
        counts = counts or Counter(pk for pk, size in self.sizes.items() if size.offered)
        plates = counts.total()
        return max(1, sum(use[size] * count for size, count in counts.items()) // plates) if plates else 1


def pools_of(*, kinds: Iterable[str], now: datetime) -> Pools:
    """Read the bottles. A kind of which no batch was ever written down is left out: it limits nothing."""
    found = batches(kinds=kinds, now=now)
    if not found:
        return Pools({}, {}, {})
    sizes = {size.pk: size for size in PlateSize.objects.all()}
    rates = {kind: own_rates.rate(kind=kind, found=each).ml_a_cm2 * UL_IN_ML for kind, each in found.items()}
    return Pools(
        {kind: on_hand(kind=kind, found=each, ul_a_cm2=rates[kind]) for kind, each in found.items()},
        {kind: {pk: units(size, rates[kind]) for pk, size in sizes.items()} for kind in found},
        sizes,
    )


def units(size: PlateSize, ul_a_cm2: Fraction) -> int:
    """Whole microlitres, or whatever else is counted by area, that one plate of a size takes."""
    return ceil(Fraction(size.width_mm) * Fraction(size.height_mm) / 100 * ul_a_cm2)
