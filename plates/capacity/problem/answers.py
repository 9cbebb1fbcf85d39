"""What the engine answers: an admission, the openings of a day, and why not."""

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property

from plates.capacity.problem.timeline import SittingPlan

BUDGET = "budget"


def budget_cause(name: str) -> str:
    """The cause of a refusal by the budget of that name, as scenario files and rows hold it."""
    return f"{BUDGET}:{name}"


def split_cause(why: str) -> tuple[str, str]:
    """A cause as its kind and, of a budget, its name. The reverse of `budget_cause`."""
    kind, _, name = why.partition(":")
    return kind, name


@dataclass(frozen=True, slots=True)
class Refusal:
    """Why `start` cannot be promised.

    why: "operator" | "tank" | "wash" | "sitters" | "closing" | "racks" | "opening" | "size" | "budget:<name>"
    | "rest" | "grid" | "waiting" (somebody would wait long too often) | "undecided" (not in the time given). begin,
    end: the minutes that bind. lifted_by: the one change that was tried and would admit it ("operators+1",
    "tank_places+1", "wash_places+1", "tolerance+5", "closes+15", "sitters_at_once+1"), for a budget its name
    and the units that are missing ("collodion+2625"), or None. nearest: the nearest starts that can be promised, in the
    order of the day.
    """

    start: int
    why: str
    begin: int
    end: int
    lifted_by: str | None
    nearest: tuple[int, ...] = ()

    @property
    def kind(self) -> str:
        """What binds; of a budget without its name."""
        return split_cause(self.why)[0]

    @property
    def budget(self) -> str:
        """The name of the budget that binds; empty for anything else."""
        return split_cause(self.why)[1]

    @property
    def missing(self) -> int | None:
        """How many more units of the budget would admit it; None for anything else."""
        if self.kind != BUDGET or self.lifted_by is None:
            return None
        return int(self.lifted_by.rpartition("+")[2])


@dataclass(frozen=True, slots=True)
class Admission:
    """Verified plans for the booked sittings in their order and the new one last; or () and a refusal."""

    plans: tuple[SittingPlan, ...]
    refusal: Refusal | None


@dataclass(frozen=True)
class Openings:
    """The grid starts that can be promised; the reasons for the others are worked out only when asked for."""

    starts: tuple[int, ...]
    _explain: Callable[[], tuple[Refusal, ...]] = field(repr=False, compare=False)

    @cached_property
    def refused(self) -> tuple[Refusal, ...]:
        """One refusal for each other start of the grid, in the order of the day."""
        return self._explain()


NEAREST = 3


def nearest(start: int, starts: tuple[int, ...]) -> tuple[int, ...]:
    """The starts nearest to `start`, at most NEAREST of them, in the order of the day."""
    return tuple(sorted(sorted(starts, key=lambda free: (abs(free - start), free))[:NEAREST]))
