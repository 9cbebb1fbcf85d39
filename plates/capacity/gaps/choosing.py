"""The ways in which one sitting can be laid out at its start, for those who look ahead to what comes after it."""

from collections.abc import Iterable, Iterator
from itertools import product

from plates.capacity.gaps.reading import Baths, Farewell, Pour, Spacing, Taste
from plates.capacity.problem.bench import Sitting
from plates.capacity.problem.case import Case
from plates.capacity.problem.timeline import SittingPlan

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
