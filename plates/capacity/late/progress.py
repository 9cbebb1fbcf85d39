"""A day that runs late: what has really happened, what is left, and when each sitter can be expected.

Nobody presses anything when a step begins, only when it is done (a pour: when it begins). So a step that is not
pressed yet ends now or later, and what is pressed stays where it was. A sitter counts as settled with the first pour.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from plates.capacity.problem.bench import Bench, Day, Sitting, Size
from plates.capacity.problem.timeline import Booked, Occupation, PlatePlan, SittingPlan, occupations
from plates.capacity.problem.values import CapacityValueError, whole

STEPS = ("poured", "out", "exposed", "developed", "fixed", "lifted")
Means = Literal["as planned", "played forward", "searched"]


@dataclass(frozen=True, slots=True)
class Made:
    """What has happened to one plate, each in minutes and None for not yet; `fixed` is also when its wash began.

    poured: the pour began; out: it left the bath. A `spoilt` plate needs nothing more here.
    """

    poured: int | None = None
    out: int | None = None
    exposed: int | None = None
    developed: int | None = None
    fixed: int | None = None
    lifted: int | None = None
    spoilt: bool = False

    def __post_init__(self) -> None:
        times = [getattr(self, step) for step in STEPS]
        known = [minute for minute in times if minute is not None]
        if times[: len(known)] != known:
            raise CapacityValueError("made", "must know every step before the last one that is known")
        for minute in known:
            whole("made", minute, -(10**9), 2 * 10**9)
        if known != sorted(known):
            raise CapacityValueError("made", "must have its steps one after the other")
        if self.spoilt and not known:
            raise CapacityValueError("made", "must have been poured before it is spoilt")

    @property
    def left(self) -> bool:
        """Whether anything is still to be done for it."""
        return not self.spoilt and self.lifted is None


@dataclass(frozen=True, slots=True)
class Work:
    """One sitting or retake: its promise with the stored plan, and what was made of each of its plates."""

    booked: Booked
    made: tuple[Made, ...]

    def __post_init__(self) -> None:
        if len(self.made) != len(self.booked.sitting.plates):
            raise CapacityValueError("made", "must tell of every plate of the sitting")

    @property
    def begun(self) -> bool:
        return any(made.poured is not None for made in self.made)

    @property
    def first_pour(self) -> int:
        """When the first plate was really poured, of a sitting that has begun."""
        return min(made.poured for made in self.made if made.poured is not None)


@dataclass(frozen=True, slots=True)
class Expected:
    """What becomes of one sitting: settled at `begins`, gone at `ends`; `late` beyond its promised window.

    plan: all its minutes, of a sitting that has not begun. left: what is still to be held for it. over: minutes
    beyond closing (the sitter) or the emptying of the racks (its plates), whichever is more.
    """

    begins: int
    ends: int
    late: int
    over: int
    plan: SittingPlan | None
    left: tuple[Occupation, ...]

    @property
    def kept(self) -> bool:
        """Whether the promised start and the hours of the day hold."""
        return not self.late and not self.over


@dataclass(frozen=True, slots=True)
class LateDay:
    """One expectation for each work given, in its order; `lost` are plates (work, plate, both from 0) whose wet window
    cannot be met any more. `proven`: no plan is better by worst lateness, then total, then overtime, then order.
    """

    sittings: tuple[Expected, ...]
    lost: tuple[tuple[int, int], ...]
    means: Means
    proven: bool

    @property
    def worst(self) -> int:
        return max((each.late for each in self.sittings), default=0)

    @property
    def total(self) -> int:
        return sum(each.late for each in self.sittings)

    @property
    def over(self) -> int:
        return max((each.over for each in self.sittings), default=0)


@dataclass(frozen=True, slots=True)
class Moment:
    """Where a late day stands: it is `now`, the one pair of hands was last known busy at `hands`, and everything is
    over by `last`, which lies far beyond closing. Minutes on the axis of the day.
    """

    now: int
    hands: int
    last: int

    @classmethod
    def of(cls, bench: Bench, day: Day, works: Sequence[Work], now: int) -> "Moment":
        """Several operators work at once, so the last press of one says nothing of the others."""
        known = [getattr(made, step) for work in works for made in work.made for step in STEPS]
        presses = [minute for minute in known if minute is not None and minute <= now]
        hands = max(presses, default=day.opens) if bench.operators == 1 else day.opens
        lengths = (
            max(plate.lift for plate in work.booked.plan.plates)
            + bench.timings.lift
            - work.booked.plan.settle
            for work in works
        )
        return cls(
            now, hands, max(day.closes, day.racks_empty_by, now) + sum(lengths) + bench.timings.wash.most
        )

    def earliest(self, minutes: int) -> int:
        """When a step of so many minutes that is not pressed as done can have begun."""
        return max(self.hands, self.now - minutes)

    def settled_from(self, plan: SittingPlan, settle: int) -> int:
        """When a sitter nobody has poured for can have been settled: as planned, until the first pour is overdue."""
        earliest = self.earliest(settle)
        return min(plan.settle, earliest) if plan.plates[0].pour >= self.now else earliest


def expected(bench: Bench, day: Day, work: Work, plan: SittingPlan) -> Expected:
    """The expectation of a sitting that has not begun, by its new plan."""
    ends = plan.farewell + bench.timings.farewell
    racked = max(plate.lift for plate in plan.plates) + bench.timings.lift
    return Expected(
        begins=plan.settle,
        ends=ends,
        late=max(0, plan.settle - work.booked.sitting.start - bench.tolerance),
        over=max(0, ends - day.closes, racked - day.racks_empty_by),
        plan=plan,
        left=occupations(bench, Booked(work.booked.sitting, plan)),
    )


def order_changes(works: Sequence[Work], sittings: Sequence[Expected]) -> int:
    """How many neighbours in the promised order will be settled the other way round."""
    neighbours = pairwise(promised_order(works))
    return sum(sittings[second].begins < sittings[first].begins for first, second in neighbours)


def promised_order(works: Sequence[Work]) -> list[int]:
    """The places in `works` of those that have not begun, in the order in which they are promised."""
    ahead = [place for place, work in enumerate(works) if not work.begun]
    return sorted(
        ahead, key=lambda place: (works[place].booked.sitting.start, works[place].booked.plan.settle)
    )


def soonest(bench: Bench, size: Size, start: int) -> Booked:
    """A sitting of one plate without a pause: what a plate to be made again would take at its quickest."""
    times = bench.timings
    pour = start + min(times.settle, times.first_pour_within)
    out = pour + times.pour + times.sensitise.least
    expose = max(out + times.load, start + times.settle)
    fix = expose + times.expose + times.develop
    wash = fix + times.fix
    plate = PlatePlan(
        pour=pour,
        tank_in=pour + times.pour,
        tank_out=out,
        expose=expose,
        develop=expose + times.expose,
        fix=fix,
        wash_in=wash,
        lift=wash + times.wash.least,
    )
    return Booked(Sitting(start, (size,)), SittingPlan(start, wash, (plate,)))
