"""Start minutes to be found, lags between them and what they hold: the building blocks of an exact plan.

This is the only module that loads the solver (CP-SAT of ortools), which takes a third of a second: import it where
an exact answer is needed, not before.
"""

from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import Any, Literal

from ortools.sat.python import cp_model

Outcome = Literal["found", "impossible", "unknown"]
Minute = Any  # A variable of the solver, or one plus a whole number; the solver has no types of its own.
Lag = tuple[Minute, Minute, int]  # The second comes at least so many minutes after the first.
WALL_FACTOR = 4
FIXED_SEED = 1


class Board:
    """A set of steps with their rules; `solve` looks for start minutes that keep all of them."""

    def __init__(self) -> None:
        self._model = cp_model.CpModel()
        self._held: dict[str, list[tuple[Any, int]]] = {}
        self.work = 0.0  # What the last `solve` took, in the solver's own seconds.
        self._minutes: list[Minute] = []
        self._search_set = False
        self.proven = False
        self._solver = cp_model.CpSolver()
        self._solver.parameters.num_workers = 1
        self._solver.parameters.random_seed = FIXED_SEED
        # Every rule here is a lag or a limit: relaxing them to linear ones costs time and prunes nothing.
        self._solver.parameters.linearization_level = 0

    def minute(self, earliest: int, latest: int) -> Minute:
        """A start to be found between two minutes, both included; none exists where latest < earliest."""
        if latest < earliest:
            self.never()
        minute = self._model.new_int_var(earliest, max(earliest, latest), "")
        self._minutes.append(minute)
        return minute

    def amount(self, least: int, most: int) -> Minute:
        """A number to be found that is no start of anything: `minimise` presses it down, no search sets it first."""
        return self._model.new_int_var(least, most, "")

    def never(self) -> None:
        """No solution: some rule is already known to be broken."""
        self._model.add_bool_or([])

    def lag(self, first: Minute, second: Minute, least: int | None, most: int | None = None) -> None:
        """`second` comes least..most minutes after `first`; None leaves that side open."""
        if least is not None:
            self._model.add(second >= first + least)
        if most is not None:
            self._model.add(second <= first + most)

    def either(self, one: Sequence[Lag], other: Sequence[Lag]) -> None:
        """All lags of `one` hold, or all of `other`: for steps whose order is open and whose gap depends on it."""
        chosen = self._model.new_bool_var("")
        for lags, holds in ((one, chosen), (other, ~chosen)):
            for first, second, least in lags:
                self._model.add(second >= first + least).only_enforce_if(holds)

    def last_of(self, minutes: Iterable[Minute], earliest: int, latest: int) -> Minute:
        """The latest of some minutes."""
        last = self.minute(earliest, latest)
        self._model.add_max_equality(last, list(minutes))
        return last

    def hold(self, resource: str, begin: Minute, minutes: int, amount: int = 1) -> None:
        """`amount` of a resource held from `begin` for so many minutes; nothing is held for no minutes."""
        if minutes:
            held = self._model.new_fixed_size_interval_var(begin, minutes, "")
            self._held.setdefault(resource, []).append((held, amount))

    def hold_until(
        self, resource: str, begin: Minute, end: Minute, least: int, most: int, amount: int = 1
    ) -> None:
        """`amount` of a resource held from `begin` up to but not including `end`, least..most minutes later."""
        minutes = self._model.new_int_var(least, most, "")
        held = self._model.new_interval_var(begin, minutes, end, "")
        self._held.setdefault(resource, []).append((held, amount))

    def limit(self, resource: str, most: int) -> None:
        """Never more than `most` of the resource is held at once; say this after all that hold it."""
        held = self._held.get(resource, [])
        intervals, amounts = [each for each, _ in held], [amount for _, amount in held]
        if most == 1 and all(amount == 1 for amount in amounts):
            self._model.add_no_overlap(intervals)
        else:
            self._model.add_cumulative(intervals, amounts, most)

    def in_groups(self, held: Sequence[tuple[Minute, Minute]], most: int, apart: int, last: int) -> None:
        """Each of these (begin, end) belongs to a group of at most `most`; groups come `apart` minutes or more apart.

        Two groups that together are no more than `most` may as well be one: that says how many groups are enough.
        """
        number = 2 * len(held) // (most + 1) + 1
        until = last + number * apart  # groups without anything in them come after all others
        groups = [(self.amount(0, until), self.amount(0, until)) for _ in range(number)]
        for first, ended in groups:
            self._model.add(ended >= first)
        for (_, ended), (then, _) in pairwise(groups):
            self._model.add(then >= ended + apart)
        chosen = [[self._model.new_bool_var("") for _ in groups] for _ in held]
        for (begin, end), choices in zip(held, chosen, strict=True):
            self._model.add_exactly_one(choices)
            for (first, ended), choice in zip(groups, choices, strict=True):
                self._model.add(begin >= first).only_enforce_if(choice)
                self._model.add(end <= ended).only_enforce_if(choice)
        for group in zip(*chosen, strict=True):
            self._model.add(sum(group) <= most)

    def hint(self, minute: Minute, value: int) -> None:
        """Where to look first for a minute."""
        self._model.add_hint(minute, value)

    def search_first(self, minutes: Sequence[Minute], *, in_turn: bool = False) -> None:
        """Set these minutes before all others, as early as they go: in the order given, or the lowest of them first."""
        which = cp_model.CHOOSE_FIRST if in_turn else cp_model.CHOOSE_LOWEST_MIN
        self._model.add_decision_strategy(list(minutes), which, cp_model.SELECT_MIN_VALUE)

    def solve(self, seconds: float, *, in_order: float | None = None) -> Outcome:
        """One search with a fixed seed on one core, setting first what can come first, as early as it goes.

        On random days this decided the hard ones several times faster than the solver's own order did, and the
        days came out as open to further insertion as with an objective (DEVELOPERS.md, decisions). A few days it
        hardly ever decides, and the solver's own order does: only the first `in_order` seconds (None: all) go to the
        one, and the rest, where it is needed, to the other.
        `seconds` are the solver's own count of work, so that the answer does not depend on how busy the machine
        is; WALL_FACTOR times as many seconds by the clock are a limit on top, for a machine that is far slower.
        """
        if not self._search_set:
            self.search_first(self._minutes)
            self._search_set = True
        self.work = 0.0
        first = seconds if in_order is None else min(in_order, seconds)
        outcome = self._search(cp_model.FIXED_SEARCH, first)
        if outcome == "unknown" and seconds > first:
            outcome = self._search(cp_model.AUTOMATIC_SEARCH, seconds - first)
        return outcome

    def _search(self, branching: Any, seconds: float) -> Outcome:
        self._solver.parameters.search_branching = branching
        self._solver.parameters.max_deterministic_time = seconds
        self._solver.parameters.max_time_in_seconds = WALL_FACTOR * seconds
        status = self._solver.solve(self._model)
        self.work += float(self._solver.response_proto.deterministic_time)
        self.proven = status in (cp_model.OPTIMAL, cp_model.INFEASIBLE)
        if status in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            return "found"
        return "impossible" if status == cp_model.INFEASIBLE else "unknown"

    def minimise(self, amounts: Sequence[Minute], seconds: float) -> Outcome:
        """Search for the least sum of `amounts`. Whatever is found, no later search may exceed it.

        `proven` tells whether there is no lesser one; the limit is the one of `solve`.
        """
        self._model.minimize(sum(amounts))
        outcome = self.solve(seconds)
        if outcome == "found":
            self._model.add(sum(amounts) <= sum(self.value(each) for each in amounts))
        return outcome

    def value(self, minute: Minute) -> int:
        """The minute found by the last `solve`, when it found one."""
        return int(self._solver.value(minute))
