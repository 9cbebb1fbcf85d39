"""Every start of the grid decided by gates 0 to 2, and by gate 3 where waiting is limited; refusals with reasons."""

from dataclasses import dataclass

from plates.capacity.exact.day_starts import DayStarts, Verdict, day_starts
from plates.capacity.exact.replan import replan
from plates.capacity.problem.answers import Refusal, nearest
from plates.capacity.problem.bench import Sitting, Size
from plates.capacity.problem.case import Case
from plates.capacity.problem.timeline import planned
from plates.capacity.refusals.reasons import Refusing
from plates.capacity.risk.values import Chances

SECONDS_A_START = 2.0
SECONDS_A_DAY = 40.0
SECONDS_A_REASON = 0.5
SECONDS_OF_REASONS = 20.0


@dataclass(frozen=True, slots=True)
class Decided:
    """The grid starts that can be promised, those that cannot, and those left undecided in the time given."""

    starts: tuple[int, ...]
    refused: tuple[Refusal, ...]
    unknown: tuple[int, ...]


def decided(case: Case, plates: tuple[Size, ...], chances: Chances | None = None) -> Decided:
    """All starts of the grid on the day as it stands; refused means proven impossible, or that somebody waits."""
    chances = chances or Chances()
    verdicts = _verdicts(case, plates, chances)
    starts = verdicts.of("open")
    reasons = Gate(SECONDS_A_REASON, SECONDS_OF_REASONS)
    refusing = Refusing(case, starts, lambda changed, asked: bool(reasons.opens(changed, asked)))
    full = [refusing.refusal(Sitting(start, plates)) for start in verdicts.of("full")]
    waiting = [_waiting(case, Sitting(start, plates), chances, starts) for start in verdicts.of("waiting")]
    refused = sorted([*full, *waiting], key=lambda refusal: refusal.start)
    return Decided(starts, tuple(refused), verdicts.of("undecided"))


def _verdicts(case: Case, plates: tuple[Size, ...], chances: Chances) -> DayStarts:
    if chances.chance_limit is not None:
        # As a sale would decide, which looks for the plan that leaves most room; that takes longer.
        return day_starts(case, plates, chances, seconds=SECONDS_A_START, in_all=SECONDS_A_DAY)
    gate = Gate(SECONDS_A_START, SECONDS_A_DAY)
    names: dict[bool | None, Verdict] = {True: "open", False: "full", None: "undecided"}
    return DayStarts({start: names[gate.opens(case, Sitting(start, plates))] for start in case.grid()})


def _waiting(case: Case, asked: Sitting, chances: Chances, starts: tuple[int, ...]) -> Refusal:
    """Who would wait, by the plan that the verdict rests on."""
    # numpy takes a moment to load, so it is loaded only where waiting is limited.
    from plates.capacity.risk.reasons import waiting_refusal

    until = asked.start + int(chances.wait_limit)
    unnamed = Refusal(asked.start, "waiting", asked.start, until, None, nearest(asked.start, starts))
    found = replan(case.bench, case.day, case.booked, asked, case.budgets, seconds=SECONDS_A_START)
    if not found.plans:
        return unnamed
    return waiting_refusal(case, planned(case.booked, found.plans, asked), chances, starts) or unnamed


class Gate:
    """Gates 0 to 2 with so many seconds of the solver's work for one question and for all together."""

    def __init__(self, seconds: float, in_all: float) -> None:
        self.seconds, self.left = seconds, in_all

    def opens(self, case: Case, asked: Sitting) -> bool | None:
        """Whether the sitting can be added; None where that was not decided."""
        if case.bound(asked):
            return False
        if case.insert(asked):
            return True
        if self.left <= 0:
            return None
        found = replan(
            case.bench, case.day, case.booked, asked, case.budgets, seconds=min(self.seconds, self.left)
        )
        self.left -= found.work
        return None if found.unknown else not found.impossible
