"""The largest number of equal sittings an empty day holds: a plan that reaches it, and a bound above it."""

from dataclasses import dataclass, replace

from plates.capacity.gaps.bitset import stretch
from plates.capacity.gaps.bounds import attended, head, shortest
from plates.capacity.gaps.choosing import tastes
from plates.capacity.gaps.reading import Farewell, lowest
from plates.capacity.gaps.windows import latest_fixed
from plates.capacity.problem.bench import Bench, Budget, Day, Sitting, Size
from plates.capacity.problem.case import Case
from plates.capacity.problem.timeline import Booked

MANY = 60
FAREWELLS: tuple[tuple[Farewell, ...], ...] = (("soon", "pour"), ("soon", "pour", "late"))


@dataclass(frozen=True, slots=True)
class Most:
    """The verified plan found and the number no plan can exceed; the plan is the largest when they meet."""

    plan: tuple[Booked, ...]
    bound: int

    @property
    def proven(self) -> bool:
        return len(self.plan) == self.bound


def most(bench: Bench, day: Day, plates: tuple[Size, ...], budgets: tuple[Budget, ...] = ()) -> Most:
    """As many sittings of these plates as can be found, starting at any whole minutes.

    Sittings are set one after the other, each as early as it goes. Which of its plans to take is tried by two
    rules: the one that lets the next sitter be settled earliest, and the one that leaves fewest idle minutes. A
    day of more than MANY sittings is filled by the first rule only, to come to an end.
    """
    bound = most_bound(bench, day, plates, budgets)
    empty = Case(replace(bench, tolerance=0), replace(day, start_every=1), (), budgets)
    best: tuple[Booked, ...] = ()
    for farewells in FAREWELLS:
        for idle in (False, True):
            if len(best) < bound and not (best and bound > MANY):
                best = max(best, _filled(empty, plates, farewells, idle), key=len)
    return Most(best, bound)


def _filled(
    case: Case, plates: tuple[Size, ...], farewells: tuple[Farewell, ...], idle: bool
) -> tuple[Booked, ...]:
    following: Case | None = case
    while following:
        case = following
        following = _next(case, plates, farewells, idle)
    return case.booked


def _next(case: Case, plates: tuple[Size, ...], farewells: tuple[Farewell, ...], idle: bool) -> Case | None:
    free = case.placing(plates).starts
    while free:
        asked = Sitting(case.day.opens + lowest(free), plates)
        free &= free - 1
        found = [
            case.with_booked(asked, plan)
            for taste in tastes(farewells)
            for plan in case.inserts(asked, taste)
        ]
        if found:
            return max(found, key=lambda after: _grade(after, plates, idle))
    return None


def _grade(after: Case, plates: tuple[Size, ...], idle: bool) -> tuple[int, int]:
    placing = after.placing(plates)
    length = placing.room.length
    start = lowest(placing.starts) if placing.starts else length
    before = placing.hands & stretch(0, start + after.bench.timings.settle, length)
    return (-before.bit_count(), -start) if idle else (-start, placing.starts.bit_count())


def most_bound(bench: Bench, day: Day, plates: tuple[Size, ...], budgets: tuple[Budget, ...] = ()) -> int:
    """A number of such sittings that no plan exceeds: the least of what hands, wash, tank, room and stock allow."""
    if any(size.wash_places > bench.wash_places or not bench.tank_takes(size) for size in plates):
        return 0
    count, open_for = len(plates), day.closes - day.opens
    limits = [
        _by_hands(bench, day, count),
        _by_wash(bench, day, plates),
        bench.tank_places * open_for // (count * bench.timings.sensitise.least),
        bench.sitters_at_once * open_for // max(1, shortest(bench, count)),
    ]
    for budget in budgets:
        each = sum(budget.units(size) for size in plates)
        if each:
            limits.append(budget.left // each)
    return max(0, min(limits))


def _by_hands(bench: Bench, day: Day, count: int) -> int:
    """All attended work before the last farewell, and the lifts of all but the late sittings before it too.

    A plate must be lifted within wash.most of its fix, so only sittings with a fix in the last stretch may have a
    lift after the last farewell; that stretch is short and holds only so many sittings.
    """
    times, hands = bench.timings, bench.operators
    last_fix = day.racks_empty_by - day.opens - times.lift - times.wash.least
    until = min(day.closes - day.opens, last_fix + times.farewell_within + times.farewell)
    work, lifts = attended(times, count), count * times.lift
    late = times.wash.most + times.lift + latest_fixed(times, count)
    late_sittings = hands * min(late, max(until, 0)) // work
    with_lifts = (hands * until + lifts * late_sittings) // (work + lifts)
    return min(hands * until // work, with_lifts)


def _by_wash(bench: Bench, day: Day, plates: tuple[Size, ...]) -> int:
    """Washes follow each other in a place at least wash.least apart, from the first fix to the last that counts."""
    times = bench.timings
    first = head(times, bench.operators)
    closes, racks = day.closes - day.opens - times.farewell, day.racks_empty_by - day.opens - times.lift
    last = min(closes, racks - times.wash.least)
    if last < first:
        return 0
    turns = (last - first) // times.wash.least + 1
    smallest = min(size.wash_places for size in plates)
    by_turns = bench.wash_places // smallest * turns // len(plates)
    area = sum(size.wash_places for size in plates) * times.wash.least
    return min(by_turns, bench.wash_places * (last + times.wash.least - first) // area)
