"""What one more pair of hands, tank place or wash place would let a day still sell, with every promise kept.

For each change, first as many one-plate sittings as no plan can exceed are put to the exact model at once, and fewer
while that is proven too many. What that does not decide is filled start by start, each by insertion or an exact
re-plan, and told as "at least". A number counts once the verifier has passed a whole day with it.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import lru_cache
from time import monotonic

from plates.capacity.exact.fill import Asked, filled, with_one
from plates.capacity.gaps.bounds import attended
from plates.capacity.gaps.most import most_bound
from plates.capacity.problem.bench import Bench
from plates.capacity.problem.timeline import Booked
from plates.capacity.problem.values import CapacityValueError

# The solver's own seconds for one question, and for all questions at single starts about one change.
SECONDS_A_TRY = 0.06
SECONDS_A_CHANGE = 2.0
PATIENCE = 2.0
MOST_KEPT = 64

Clock = Callable[[], float]


@dataclass(frozen=True, slots=True)
class Change:
    """A bench with one thing changed. `absent_until`: its last pair of hands comes only at that minute."""

    name: str
    bench: Bench
    absent_until: int | None = None


@dataclass(frozen=True, slots=True)
class StillToSell:
    """How many more sittings a changed bench was found to hold, and the number that no plan exceeds.

    change: "none" | "assistant" | "operators+1" | "tank_places+1" | "wash_places+1".
    """

    change: str
    sittings: int
    bound: int

    @property
    def proven(self) -> bool:
        return self.sittings == self.bound


def changes(bench: Bench, assistant_from: int) -> tuple[Change, ...]:
    """The bench as it stands, and each change that a bench can have at all."""
    found = [Change("none", bench)]
    for name, field, absent_until in (
        ("assistant", "operators", assistant_from),
        ("operators+1", "operators", None),
        ("tank_places+1", "tank_places", None),
        ("wash_places+1", "wash_places", None),
    ):
        try:
            more = replace(bench, **{field: getattr(bench, field) + 1})
        except CapacityValueError:
            continue  # The bench has as many as a bench can have.
        found.append(Change(name, more, absent_until))
    return tuple(found)


def what_if(
    asked: Asked,
    *,
    assistant_from: int,
    seconds: float = SECONDS_A_TRY,
    patience: float = PATIENCE,
    clock: Clock = monotonic,
) -> tuple[StillToSell, ...]:
    """How many more of the asked sittings the day could sell as it stands, which comes first, and with each change.

    No further change is begun after `patience` seconds by the clock; asked again, what was answered is answered at
    once. No change holds fewer than the bench as it stands, for its plans hold on the changed bench too.
    """
    found: list[StillToSell] = []
    ends, as_it_stands = clock() + patience, asked.booked
    for change in changes(asked.bench, assistant_from):
        if found and clock() >= ends:
            break
        changed = replace(asked, bench=change.bench, absent_until=change.absent_until)
        whole, bound = most_further(changed, as_it_stands, seconds)
        as_it_stands = as_it_stands if found else whole
        found.append(StillToSell(change.name, len(whole) - len(asked.booked), bound))
    return tuple(found)


# A pure function of values that never change: kept, so that a page need not wait twice for the same day.
@lru_cache(maxsize=MOST_KEPT)
def most_further(asked: Asked, known: tuple[Booked, ...], seconds: float) -> tuple[tuple[Booked, ...], int]:
    """The fullest day found, at least as full as the `known` one, and a number of sittings that no plan exceeds."""
    booked = len(asked.booked)
    bound = max(most_bound_further(asked), len(known) - booked)
    while len(known) - booked < bound:
        fill = filled(asked, bound, seconds)
        if fill.booked:
            return fill.booked, bound
        if not fill.impossible:
            break
        bound -= 1
    whole = known
    # What a change adds to a full day are mostly gaps, which insertion finds at once.
    for look in (0.0, seconds) if len(known) > booked else (seconds,):
        whole = _start_by_start(replace(asked, booked=whole), booked + bound, look)
    return whole, bound


def most_bound_further(asked: Asked) -> int:
    """A number of further sittings that no plan exceeds: hands, wash, tank, room, stock."""
    bench, day, work = asked.bench, asked.day, attended(asked.bench.timings, 1)
    absent = 0 if asked.absent_until is None else max(0, asked.absent_until - day.opens)
    taken = sum(attended(bench.timings, len(each.sitting.plates)) for each in asked.booked)
    by_hands = (bench.operators * (day.closes - day.opens) - absent - taken) // work
    limits = [most_bound(bench, day, (asked.size,)), by_hands]
    return max(0, min(limits if asked.in_stock is None else [*limits, asked.in_stock]))


def _start_by_start(asked: Asked, most: int, seconds: float) -> tuple[Booked, ...]:
    """The day with as many sittings added at each start in turn as go, up to `most` in all."""
    work = 0.0
    for start in asked.starts:
        fits = True
        while fits and len(asked.booked) < most and work < SECONDS_A_CHANGE:
            fill = with_one(asked, start, seconds)
            work += fill.work
            fits = bool(fill.booked)
            asked = replace(asked, booked=fill.booked or asked.booked)
    return asked.booked
