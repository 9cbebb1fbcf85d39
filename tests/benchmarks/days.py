"""What gates 0 to 2 decide on random days, held against the exact model with a long limit.

Run from the top: `python -m tests.benchmarks.days [DAYS [FIRST [EACH]]]` (500 days, half of them with one plate a
sitting, half mixed with one to three). Every acceptance must pass the verifier. Every refusal is put once more to the
exact model written down without gate 0 and without its orders and cuts, searched by the solver's own portfolio for up
to LONG_SECONDS: a plan found there is a wrong refusal, of which there must be none. For all of them that takes most
of an hour; with EACH = 8 it is done for every eighth.
"""

import random
import sys
from dataclasses import dataclass, field

from ortools.sat.python import cp_model

from plates.capacity import Bench, Day, Sitting, Size, admit, problems
from plates.capacity.exact import model as exact_model
from plates.capacity.exact.day import Wanted, laid_out
from plates.capacity.exact.model import Board
from plates.capacity.exact.replan import replan
from plates.capacity.gaps.bounds import attended
from plates.capacity.problem.case import Case
from tests.benchmarks.gate_one import show, worked
from tests.plates.capacity.days import booked_after

QUARTER, WHOLE = Size("quarter"), Size("whole", 2)
DAY = Day(0, 480, 555)
FULL = 0.8
REQUESTS = 40
LONG_SECONDS = 60.0
KINDS = {"one plate": (1,), "one to three plates": (1, 1, 2, 3)}


class AtLength(Board):
    """The same rules, searched as the solver likes best: two workers of different kinds, no order of ours."""

    def solve(self, seconds):
        self._solver.parameters.search_branching = cp_model.AUTOMATIC_SEARCH
        self._solver.parameters.num_workers = 2
        self._solver.parameters.linearization_level = 1
        self._solver.parameters.max_deterministic_time = seconds
        status = self._solver.solve(self._model)
        if status in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            return "found"
        return "impossible" if status == cp_model.INFEASIBLE else "unknown"


def at_length(bench, sittings, seconds=LONG_SECONDS):
    """ "found", "impossible" or "unknown" for all the sittings together, from their promises alone."""
    board = AtLength()
    wanted = [Wanted(each.plates, each.start, each.start + bench.tolerance) for each in sittings]
    laid_out(board, bench, DAY, wanted)
    return board.solve(seconds)


def random_bench(chance):
    return Bench(
        operators=chance.choice((1, 2)),
        tank_places=chance.choice((1, 1, 2)),
        wash_places=chance.randint(2, 10),
        sitters_at_once=chance.randint(2, 4),
        tolerance=chance.choice((5, 5, 10)),
    )


def requests(chance, counts, number):
    for _ in range(number):
        plates = tuple(chance.choice((QUARTER, WHOLE)) for _ in range(chance.choice(counts)))
        yield Sitting(chance.randrange(0, DAY.closes, DAY.start_every), plates)


def load(bench, booked):
    """The share of the hands' minutes that is booked, lifts included."""
    work = sum(attended(bench.timings, n) + n * bench.timings.lift for n in _counts(booked))
    return work / (DAY.closes * bench.operators)


def _counts(booked):
    return [len(each.sitting.plates) for each in booked]


@dataclass
class Tally:
    """What was decided, and what the exact gate took for each, in milliseconds of the processor.

    Of the refusals each so many'th is searched at length.
    """

    each: int = 1
    refusals: int = 0
    looked_at: int = 0
    by: dict[str, int] = field(default_factory=lambda: dict.fromkeys(
        ("gate 0 no", "gate 1 yes", "gate 2 yes", "gate 2 no", "unknown"), 0))  # fmt: skip
    took: list[float] = field(default_factory=list)
    unsound: int = 0
    wrong: int = 0
    not_confirmed: int = 0
    unknown_but: dict[str, int] = field(default_factory=dict)

    def decide(self, bench, booked, asked):
        """The day after one request put to gates 0 to 2, as the site puts it."""
        if Case(bench, DAY, tuple(booked)).bound(asked):
            return self.refused("gate 0 no", bench, booked, asked)
        plans = admit(bench, DAY, booked, asked).plans
        self.by["gate 1 yes"] += bool(plans)
        if not plans:
            exact, took = worked(lambda: replan(bench, DAY, booked, asked))
            self.took.append(took)
            if not exact.plans:
                return self.refused("unknown" if exact.unknown else "gate 2 no", bench, booked, asked)
            self.by["gate 2 yes"] += 1
            plans = exact.plans
        after = booked_after(booked, asked, plans)
        self.unsound += bool(problems(bench, DAY, after))
        return after

    def refused(self, gate, bench, booked, asked):
        self.by[gate] += 1
        self.refusals += 1
        if self.refusals % self.each and gate != "unknown":
            return booked
        self.looked_at += 1
        truth = at_length(bench, [*(each.sitting for each in booked), asked])
        if gate == "unknown":
            self.unknown_but[truth] = self.unknown_but.get(truth, 0) + 1
        else:
            self.wrong += truth == "found"
            self.not_confirmed += truth == "unknown"
        return booked


def run(tally, seed, counts, number=REQUESTS):
    """One day, asked until the hands are FULL or so many requests have been made."""
    chance, booked = random.Random(seed), []
    bench = random_bench(chance)
    for asked in requests(chance, counts, number):
        if load(bench, booked) >= FULL:
            break
        booked = tally.decide(bench, booked, asked)
    return load(bench, booked)


def report(name, counts, seeds, each=1):
    tally = Tally(each)
    loads = [run(tally, seed, counts) for seed in seeds]
    took, asked = sorted(tally.took), sum(tally.by.values())
    taken = tally.by["gate 1 yes"] + tally.by["gate 2 yes"]
    show(
        f"{name}: {len(loads)} days, hands {100 * sum(loads) / len(loads):.0f} % taken; {asked} asked: {tally.by}"
    )
    show(
        f"  accepted {taken}, not sound {tally.unsound}, by gate 1 {100 * tally.by['gate 1 yes'] / taken:.0f} %"
    )
    show(
        f"  of {tally.looked_at} refusals searched at length wrong {tally.wrong},"
        f" proofs that the long search could not repeat {tally.not_confirmed}"
    )
    show(
        f"  unknown {tally.by['unknown']}: {100 * tally.by['unknown'] / asked:.2f} % of all asked,"
        f" {100 * tally.by['unknown'] / max(1, len(took)):.2f} % of the exact calls;"
        f" with the long limit {tally.unknown_but}"
    )
    if took:
        show(f"  exact calls {len(took)}: median {took[len(took) // 2]:.0f}, 95 % {took[len(took) * 19 // 20]:.0f},"
             f" longest {took[-1]:.0f} ms")  # fmt: skip
    return tally


if __name__ == "__main__":
    # Only the solver's own count of work ends a search here, so that a busy machine makes nothing unknown.
    exact_model.WALL_FACTOR = 1000
    days = int(sys.argv[1]) if len(sys.argv) > 1 else 500
    first = int(sys.argv[2]) if len(sys.argv) > 2 else 0
    each = int(sys.argv[3]) if len(sys.argv) > 3 else 1
    for name, counts in KINDS.items():
        report(name, counts, range(first, first + days // 2), each)
