"""Which of the plans that fit: the one that leaves the most room for those who ask later.

Measured on invented days of random requests (tests/bench/gate_one.py): taking the first plan that fits fills a
day with single plates to about 58 % of the operator's minutes, taking the roomiest to about 71 %.
"""

from collections.abc import Callable, Iterable, Iterator
from itertools import product

from plates.capacity.bench import Sitting, Size
from plates.capacity.bitset import stretch
from plates.capacity.case import Case
from plates.capacity.reading import Baths, Farewell, Pour, Spacing, Taste
from plates.capacity.timeline import SittingPlan

BATHS: tuple[Baths, ...] = ("short", "settle", "long")
POURS: tuple[Pour, ...] = ("soon", "settle", "late")
TAILS: tuple[Spacing, ...] = ("compact", "spread")


def tastes(farewells: Iterable[Farewell]) -> tuple[Taste, ...]:
    """Every taste with these farewells, in a fixed order."""
    return tuple(Taste(*each) for each in product(BATHS, POURS, TAILS, farewells))


def plans(case: Case, asked: Sitting) -> Iterator[SittingPlan]:
    """The different verified plans for the asked sitting, in a fixed order."""
    seen: set[SittingPlan] = set()
    for taste in tastes(("soon", "late")):
        for plan in case.inserts(asked, taste):
            if plan not in seen:
                seen.add(plan)
                yield plan


def roomiest(case: Case, asked: Sitting) -> SittingPlan | None:
    """The plan that leaves most starts of the grid open for one more such plate; of equals, the least waiting."""
    return max(plans(case, asked), key=graded(case, asked), default=None)


def graded(case: Case, asked: Sitting) -> Callable[[SittingPlan], tuple[int, int, int]]:
    """What a plan for the asked sitting leaves open, to be compared."""

    def grade(plan: SittingPlan) -> tuple[int, int, int]:
        after = case.with_booked(asked, plan)
        free = after.placing(asked.plates[:1]).starts
        # Single free minutes count for little beside a shorter wait for this sitter, so eight make one.
        return _grid_starts(after, asked.plates[:1]), free.bit_count() // 8, asked.start - plan.farewell

    return grade


def _grid_starts(case: Case, plates: tuple[Size, ...]) -> int:
    placing = case.placing(plates)
    window = stretch(0, case.bench.tolerance + 1, placing.room.length)
    return sum(bool(placing.starts >> start - case.day.opens & window) for start in case.grid())
