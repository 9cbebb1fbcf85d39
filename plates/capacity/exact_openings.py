"""Every start of the grid decided by gates 0, 1 and 2, with a reason for each refusal."""

from dataclasses import dataclass

from plates.capacity.answers import Refusal
from plates.capacity.bench import Sitting, Size
from plates.capacity.case import Case
from plates.capacity.exact import replan
from plates.capacity.refusing import Refusing

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


def decided(case: Case, plates: tuple[Size, ...]) -> Decided:
    """All starts of the grid on the day as it stands; refused means proven impossible."""
    gate = Gate(SECONDS_A_START, SECONDS_A_DAY)
    answers = {start: gate.opens(case, Sitting(start, plates)) for start in case.grid()}
    starts = tuple(start for start, answer in answers.items() if answer)
    reasons = Gate(SECONDS_A_REASON, SECONDS_OF_REASONS)
    refusing = Refusing(case, starts, lambda changed, asked: bool(reasons.opens(changed, asked)))
    refused = tuple(
        refusing.refusal(Sitting(start, plates)) for start, answer in answers.items() if answer is False
    )
    return Decided(starts, refused, tuple(start for start, answer in answers.items() if answer is None))


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
