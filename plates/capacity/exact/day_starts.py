"""Every start of the grid decided by all gates, as a sale would decide it; without reasons.

Loads the solver, and numpy where waiting is limited.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import islice
from typing import Literal

from plates.capacity.admission import inserted
from plates.capacity.exact.replan import replan
from plates.capacity.problem.answers import NEAREST
from plates.capacity.problem.bench import Sitting, Size
from plates.capacity.problem.case import Case
from plates.capacity.problem.timeline import SittingPlan, planned
from plates.capacity.risk.values import Chances

# Of the solver's own seconds, for one start, where a whole day is worked out for the site.
WORK_A_START = 1.0
Verdict = Literal["open", "full", "waiting", "undecided"]


@dataclass(frozen=True, slots=True)
class DayStarts:
    """The verdict on each start of the grid: open, full (proven), open but for somebody's waiting, or undecided."""

    verdicts: Mapping[int, Verdict]

    def of(self, verdict: Verdict) -> tuple[int, ...]:
        """The starts of one verdict, in the order of the day."""
        return tuple(start for start, found in self.verdicts.items() if found == verdict)


def day_starts(
    case: Case, plates: tuple[Size, ...], chances: Chances, *, seconds: float, in_all: float
) -> DayStarts:
    """Decide every start; `seconds` of the solver's work for one of them, `in_all` for all together."""
    deciding = _Deciding(case, chances, seconds, in_all)
    return DayStarts({start: deciding.verdict(Sitting(start, plates)) for start in case.grid()})


def first_open(
    case: Case,
    plates: tuple[Size, ...],
    chances: Chances,
    *,
    not_before: int,
    not_after: int | None = None,
    seconds: float,
) -> int | None:
    """The first start of the grid from `not_before` to `not_after` that is open; what is not decided counts as not."""
    deciding = _Deciding(case, chances, seconds, seconds * len(case.grid()))
    last = case.day.closes if not_after is None else not_after
    starts = (start for start in case.grid() if not_before <= start <= last)
    return next((start for start in starts if deciding.verdict(Sitting(start, plates)) == "open"), None)


def nearest_open(case: Case, asked: Sitting, starts: Sequence[int], chances: Chances) -> tuple[int, ...]:
    """Of the starts thought to be free, the nearest that gaps hold in time for everybody, in the order of the day."""
    deciding = _Deciding(case, chances, 0.0, 0.0)
    near = sorted(starts, key=lambda start: (abs(start - asked.start), start))
    others = (start for start in near if start != asked.start)
    found = (start for start in others if deciding.verdict(Sitting(start, asked.plates)) == "open")
    return tuple(sorted(islice(found, NEAREST)))


@dataclass
class _Deciding:
    case: Case
    chances: Chances
    seconds: float
    left: float

    def verdict(self, asked: Sitting) -> Verdict:
        case = self.case
        if case.bound(asked):
            return "full"
        plan = inserted(case, asked)
        if plan is not None and self._in_time((*(each.plan for each in case.booked), plan), asked):
            return "open"
        if self.left <= 0:
            return "undecided"
        found = replan(
            case.bench, case.day, case.booked, asked, case.budgets, seconds=min(self.seconds, self.left)
        )
        self.left -= found.work
        if not found.plans:
            return "undecided" if found.unknown else "full"
        return "open" if self._in_time(found.plans, asked) else "waiting"

    def _in_time(self, plans: tuple[SittingPlan, ...], asked: Sitting) -> bool:
        if self.chances.chance_limit is None:
            return True
        # numpy takes a moment to load, so it is loaded only where chances are asked for.
        from plates.capacity.risk.waiting import waits_too_often

        case, after = self.case, planned(self.case.booked, plans, asked)
        return waits_too_often(case.bench, case.day, case.booked, after, self.chances) is None
