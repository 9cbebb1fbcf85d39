"""What is known beforehand about a day: for which standing of it, and which starts."""

from collections.abc import Sequence
from hashlib import sha256

from plates import capacity
from plates.bench.models import Bench, BenchDay, PlateSize
from plates.budgets.limits import NONE, Limits

MOST_USUAL = 3


def order_key(bench: capacity.Bench, plates: Sequence[capacity.Size], limits: Limits = NONE) -> str:
    """All that the bench can tell about plates in their order: the wash places of each, x for one that does not fit.

    Where a solution limits the day, what the plates take of each such solution too. Orders with the same key can be
    made at the same times.
    """
    places = ".".join(str(size.wash_places) if bench.tank_takes(size) else "x" for size in plates)
    if not limits.rooms:
        return places
    taken = [sum(budget.units(size) for size in plates) for budget in limits.budgets(())]
    return f"{places}-{sha256(repr(taken).encode()).hexdigest()[:10]}"


def fingerprint(day: BenchDay, limits: Limits = NONE) -> str:
    """A name for the day with its hours, its bench, everything promised on it and what its chemistry leaves.

    It is another one after any change.
    """
    facts: tuple[object, ...] = (
        day.version, day.as_capacity(), day.bench.as_capacity(), day.bench.as_chances(),
    )  # fmt: skip
    if limits:
        facts = (*facts, limits.rooms, limits.slow)
    return sha256(repr(facts).encode()).hexdigest()[:40]


def usual_orders(
    bench: Bench, offered: Sequence[PlateSize], limits: Limits = NONE
) -> dict[str, tuple[capacity.Size, ...]]:
    """One to MOST_USUAL plates of each offered size, once for all sizes that the bench cannot tell apart."""
    can = bench.as_capacity()
    found: dict[str, tuple[capacity.Size, ...]] = {}
    for size in offered:
        for count in range(1, MOST_USUAL + 1):
            plates = (size.as_capacity(),) * count
            found.setdefault(order_key(can, plates, limits), plates)
    return found
