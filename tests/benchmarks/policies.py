"""Which of the plans that fit gate 1 should take, when the exact re-plan stands behind it.

Run from the top: `python -m tests.benchmarks.policies [DAYS]`. The same random requests are put to the same
days under each
policy: gate 1 takes a plan by the policy, and where it has none gate 2 plans the whole day anew. Printed: how far the
days were filled, the share of acceptances that gate 1 gave, the exact calls, and what the sitters of gate 1 got: the
minutes they were settled after the promised start, and the minutes of their stay above the shortest; the same for
all sitters of the days as they stood at the end, after all that gate 2 planned anew.
"""

import random
import statistics
import sys

from plates.capacity import Bench, Day, Sitting, Size
from plates.capacity.exact import model as exact_model
from plates.capacity.exact.replan import replan
from plates.capacity.gaps.bitset import stretch
from plates.capacity.gaps.bounds import shortest
from plates.capacity.gaps.choosing import BATHS, POURS, TAILS, plans
from plates.capacity.gaps.reading import Taste
from plates.capacity.problem.case import Case
from tests.benchmarks.days import load
from tests.benchmarks.gate_one import show, worked
from tests.plates.capacity.days import booked_after

QUARTER, WHOLE = Size("quarter"), Size("whole", 2)
DAY = Day(0, 480, 555)
REQUESTS = 60
BENCHES = {
    "one plate": (Bench(), (1,)),
    "one to three plates": (Bench(tolerance=10), (1, 1, 2, 3)),
    "two operators, one to three plates": (
        Bench(operators=2, wash_places=10, sitters_at_once=4),
        (1, 1, 2, 3),
    ),
}


def graded(case, asked):
    """What a plan for the asked sitting leaves open for one more plate like its first, to be compared."""

    def grade(plan):
        after = case.with_booked(asked, plan)
        free = after.placing(asked.plates[:1]).starts
        window = stretch(0, case.bench.tolerance + 1, after.room.length)
        # Single free minutes count for little beside a shorter wait for this sitter, so eight make one.
        starts = sum(bool(free >> start - case.day.opens & window) for start in case.grid())
        return starts, free.bit_count() // 8, asked.start - plan.farewell

    return grade


def roomiest(case, asked):
    """Of every taste, the plan that leaves most starts of the grid open."""
    return max(plans(case, asked), key=graded(case, asked), default=None)


def among(tastes, first_minute=False):
    """The roomiest plan of these tastes only, on request only with the sitter settled as early as it goes."""

    def policy(case, asked):
        plans = {plan: None for taste in tastes for plan in case.inserts(asked, taste)}
        earliest = min((plan.settle for plan in plans), default=0)
        kept = [plan for plan in plans if not first_minute or plan.settle == earliest]
        return max(kept, key=graded(case, asked), default=None)

    return policy


def first_soon(case, asked):
    return case.insert(asked)


COMPACT = [Taste(bath) for bath in BATHS]
POLICIES = {
    "first plan": first_soon,
    "roomiest": roomiest,
    "roomiest of compact": among(COMPACT),
    "roomiest of compact, settled soonest": among(COMPACT, first_minute=True),
    "roomiest, settled soonest": among(
        [Taste(b, p, t) for b in BATHS for p in POURS for t in TAILS], first_minute=True
    ),
}


def requests(seed, counts):
    chance = random.Random(seed)
    for _ in range(REQUESTS):
        plates = tuple(chance.choice((QUARTER, WHOLE)) for _ in range(chance.choice(counts)))
        yield Sitting(chance.randrange(0, DAY.closes, DAY.start_every), plates)


class Played:
    """Days under one policy, and what was counted on them."""

    def __init__(self, bench, policy):
        self.bench, self.policy = bench, policy
        self.by_insertion, self.accepted, self.unknown = 0, 0, 0
        self.took, self.choosing, self.loads, self.late, self.longer = [], [], [], [], []
        self.last_late, self.last_longer = [], []

    def day(self, asked_for):
        booked = []
        for asked in asked_for:
            case = Case(self.bench, DAY, tuple(booked))
            if case.bound(asked) is None:
                booked = self.one(case, asked)
        self.loads.append(load(self.bench, booked))
        for each in booked:
            stay = each.plan.farewell + self.bench.timings.farewell - each.plan.settle
            self.last_late.append(each.plan.settle - each.sitting.start)
            self.last_longer.append(stay - shortest(self.bench, len(each.sitting.plates)))

    def one(self, case, asked):
        plan, took = worked(lambda: self.policy(case, asked))
        self.choosing.append(took)
        if plan:
            self.by_insertion += 1
            self.accepted += 1
            stay = plan.farewell + self.bench.timings.farewell - plan.settle
            self.late.append(plan.settle - asked.start)
            self.longer.append(stay - shortest(self.bench, len(asked.plates)))
            return booked_after(case.booked, asked, [*(each.plan for each in case.booked), plan])
        exact, took = worked(lambda: replan(self.bench, DAY, case.booked, asked))
        self.took.append(took)
        self.unknown += exact.unknown
        self.accepted += bool(exact.plans)
        return booked_after(case.booked, asked, exact.plans) if exact.plans else list(case.booked)

    def line(self):
        took = sorted(self.took)
        return (
            f"hands {100 * statistics.mean(self.loads):.1f} % taken, {self.accepted} accepted,"
            f" by gate 1 {100 * self.by_insertion / self.accepted:.0f} %; choosing median"
            f" {statistics.median(self.choosing):.1f} ms; exact calls {len(took)}, unknown {self.unknown}, median"
            f" {took[len(took) // 2]:.0f}, 95 % {took[len(took) * 19 // 20]:.0f} ms; settled"
            f" {statistics.mean(self.late):.1f} late, staying {statistics.mean(self.longer):.1f} longer;"
            f" at the end {statistics.mean(self.last_late):.1f} late, {statistics.mean(self.last_longer):.1f} longer"
        )


if __name__ == "__main__":
    exact_model.WALL_FACTOR = 1000
    days = int(sys.argv[1]) if len(sys.argv) > 1 else 20
    for name, (bench, counts) in BENCHES.items():
        show(f"{name}, {days} days")
        for policy, choose in POLICIES.items():
            played = Played(bench, choose)
            for seed in range(days):
                played.day(requests(seed, counts))
            show(f"  {policy}: {played.line()}")
            sys.stdout.flush()
