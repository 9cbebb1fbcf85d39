"""How far apart to promise sittings so that nobody waits long too often, and how many plates to have chemistry for.

Loads the solver and numpy; import it only where this is asked for.
"""

from dataclasses import dataclass, replace
from math import exp, lgamma, log, log1p

from plates.capacity.exact.replan import lay_out
from plates.capacity.gaps.bounds import attended, impossible
from plates.capacity.problem.bench import MOST_MINUTES, MOST_PLATES, Bench, Day, Sitting, Size
from plates.capacity.problem.timeline import Booked
from plates.capacity.problem.values import whole
from plates.capacity.risk.assess import DAYS, SEED, risk
from plates.capacity.risk.values import Chances, Risk, objection
from plates.capacity.scenario.fields import number

# A gap may keep the promise by a lucky plan; it is suggested only where so many longer ones keep it too.
LONGER = 2
SECONDS_A_GAP = 1.0
ROUNDING = 1e-9


@dataclass(frozen=True)
class Spacing:
    """Sittings promised every `gap` minutes from the opening, the plan of such a day, and what chance does to it."""

    gap: int
    booked: tuple[Booked, ...]
    risk: Risk


def spacing(
    bench: Bench,
    day: Day,
    plates: tuple[Size, ...],
    chances: Chances,
    *,
    days: int = DAYS,
    seed: int = SEED,
) -> Spacing | None:
    """The shortest even gap in whole minutes at which a day full of such sittings can be planned and keeps the promise.

    None where the day does not hold one such sitting that keeps it. The first sitter, the second and so on meet
    the same luck whatever the gap, so that the gaps differ by their length alone.
    """
    search = _Search(bench, day, plates, chances, days, seed)
    if not search.keeps(day.closes - day.opens):
        return None
    gap = search.shortest()
    while not all(search.keeps(gap + more) for more in range(LONGER + 1)):
        gap += 1
    return search.tried[gap]


class _Search:
    def __init__(
        self, bench: Bench, day: Day, plates: tuple[Size, ...], chances: Chances, days: int, seed: int
    ) -> None:
        self.bench, self.day, self.plates = bench, replace(day, start_every=1), plates
        self.chances, self.days, self.seed = chances, days, seed
        self.tried: dict[int, Spacing | None] = {}

    def shortest(self) -> int:
        """By halves, as longer gaps keep what shorter ones do."""
        bound = attended(self.bench.timings, len(self.plates)) // self.bench.operators
        breaks, keeps = max(0, bound - 1), self.day.closes - self.day.opens
        while keeps - breaks > 1:
            middle = (breaks + keeps) // 2
            if self.keeps(middle):
                keeps = middle
            else:
                breaks = middle
        return keeps

    def keeps(self, gap: int) -> bool:
        """Whether a day with sittings so many minutes apart can be planned and keeps the promise."""
        if gap not in self.tried:
            self.tried[gap] = self._planned(gap)
        found = self.tried[gap]
        return found is not None and objection(found.risk, self.chances) is None

    def _planned(self, gap: int) -> Spacing | None:
        booked = self._laid_out(gap)
        if not booked:
            return None
        keys = tuple((place,) for place in range(len(booked)))
        found = risk(self.bench, self.day, booked, self.chances, days=self.days, seed=self.seed, keys=keys)
        return Spacing(gap, booked, found)

    def _laid_out(self, gap: int) -> tuple[Booked, ...]:
        """As many sittings as can be over by closing; () where they cannot be planned together, or not in time."""
        starts = range(self.day.opens, self.day.closes, gap)
        every = [Sitting(start, self.plates) for start in starts]
        sittings = [each for each in every if not impossible(self.bench, self.day, (), each, ())]
        plans = lay_out(self.bench, self.day, sittings, seconds=SECONDS_A_GAP).plans
        return tuple(Booked(*each) for each in zip(sittings, plans, strict=False))


def retake_budget(plates: int, retake: float, sure: float = 0.95) -> int:
    """Plates to have chemistry for so that, with this certainty, `plates` good ones come of them.

    Each plate fails with chance `retake`, as often as it takes: plates + a negative binomial count (capacity research
    s.2b, derived there). CapacityValueError names a value that cannot be.
    """
    whole("plates", plates, 0, MOST_MINUTES * MOST_PLATES)
    number("retake", retake, 0.95)
    number("sure", sure, 0.999999)
    if not plates or not retake:
        return plates
    # Logarithms, as the chance of no failure at all may be too small for a float.
    good = plates * log1p(-retake)
    failed, reached = 0, exp(good)
    while reached < sure - ROUNDING:
        failed += 1
        ways = lgamma(plates + failed) - lgamma(plates) - lgamma(failed + 1)
        reached += exp(good + failed * log(retake) + ways)
    return plates + failed
