"""What is known beforehand about a day: for which standing of it, and which starts. Nothing here writes."""

from collections.abc import Sequence
from hashlib import sha256

from plates import capacity
from plates.models import Bench, BenchDay, PlateSize

MOST_USUAL = 3


def order_key(bench: capacity.Bench, plates: Sequence[capacity.Size]) -> str:
    """All that the bench can tell about plates in their order: the wash places of each, x for one that does not fit.

    Orders with the same key can be made at the same times.
    """
    return ".".join(str(size.wash_places) if bench.tank_takes(size) else "x" for size in plates)


def standing(day: BenchDay) -> str:
    """A name for the day with its hours, its bench and everything promised on it; another one after any change."""
    facts = (day.version, day.as_capacity(), day.bench.as_capacity(), day.bench.as_chances())
    return sha256(repr(facts).encode()).hexdigest()[:40]


def usual_orders(bench: Bench, offered: Sequence[PlateSize]) -> dict[str, tuple[capacity.Size, ...]]:
    """One to MOST_USUAL plates of each offered size, once for all sizes that the bench cannot tell apart."""
    can = bench.as_capacity()
    found: dict[str, tuple[capacity.Size, ...]] = {}
    for size in offered:
        for count in range(1, MOST_USUAL + 1):
            plates = (size.as_capacity(),) * count
            found.setdefault(order_key(can, plates), plates)
    return found
