"""The largest number of equal sittings an empty day holds, with proof where it can be had in time."""

from collections.abc import Sequence
from dataclasses import replace

from plates.capacity.exact.day import Wanted
from plates.capacity.exact.replan import Exact, solved
from plates.capacity.gaps.most import Most, most_bound
from plates.capacity.gaps.most import most as most_by_insertion
from plates.capacity.problem.bench import Bench, Budget, Day, Sitting, Size
from plates.capacity.problem.timeline import Booked
from plates.capacity.verify.day import problems

SECONDS = 40.0
SECONDS_A_TRY = 10.0


def most(
    bench: Bench,
    day: Day,
    plates: tuple[Size, ...],
    budgets: tuple[Budget, ...] = (),
    *,
    seconds: float = SECONDS,
) -> Most:
    """As many sittings of these plates as the day holds, starting at any whole minutes.

    The bound comes down with every number that is proven too many; proven when the plan found meets it. Whatever
    is not decided in time is left out of the plan and in the bound.
    """
    search = _Search(replace(bench, tolerance=0), day, plates, most_bound(bench, day, plates, budgets))
    while search.undecided and seconds > 0:
        seconds -= search.narrow(min(seconds, SECONDS_A_TRY))
    best = Most(search.plan, search.bound)
    if not best.proven:
        best = Most(max(best.plan, most_by_insertion(bench, day, plates, budgets).plan, key=len), best.bound)
    return best


class _Search:
    """Numbers tried from the bound downwards, by halves once one of them could not be decided."""

    def __init__(self, bench: Bench, day: Day, plates: tuple[Size, ...], bound: int) -> None:
        self.bench, self.day, self.plates = bench, day, plates
        self.bound = self.ceiling = bound
        self.plan: tuple[Booked, ...] = ()

    @property
    def undecided(self) -> bool:
        return len(self.plan) < self.ceiling

    def narrow(self, seconds: float) -> float:
        """One number tried for so long; the work it took."""
        by_halves = self.ceiling < self.bound
        number = (len(self.plan) + self.ceiling + 1) // 2 if by_halves else self.ceiling
        found = self._found(number, seconds)
        booked = tuple(Booked(Sitting(plan.settle, self.plates), plan) for plan in found.plans)
        if booked and self._sound(booked):
            self.plan = booked
        else:
            self.ceiling = number - 1
        if found.impossible:
            self.bound = self.ceiling
        return found.work

    def _found(self, number: int, seconds: float) -> Exact:
        """One order of search for half the time, then the other: each finds days that the other does not.

        Single plates on one pair of hands are mostly found with the sitters first (27 of 27 in a second where the
        other found 25 in ten), several plates a sitting with the lowest minute first (16 of 16 instead of 14).
        """
        wanted = [Wanted(self.plates, self.day.opens, self.day.closes)] * number
        sitters_first = len(self.plates) == self.bench.operators == 1
        found = self._solved(wanted, seconds / 2, sitters_first)
        if not found.unknown:
            return found
        other = self._solved(wanted, seconds / 2, not sitters_first)
        return replace(other, work=found.work + other.work)

    def _solved(self, wanted: Sequence[Wanted], seconds: float, sitters_first: bool) -> Exact:
        return solved(self.bench, self.day, wanted, seconds, sitters_first=sitters_first, in_order=None)

    def _sound(self, booked: Sequence[Booked]) -> bool:
        return not problems(self.bench, self.day, booked)
