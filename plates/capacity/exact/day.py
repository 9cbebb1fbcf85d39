"""The whole day as one exact model: every rule of design.md s.3, in whole minutes from the opening."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from plates.capacity.exact.model import Board, Minute
from plates.capacity.problem.bench import Bench, Day, Size
from plates.capacity.problem.timeline import PlatePlan, SittingPlan

STEPS = ("pour", "tank_out", "expose", "develop", "fix", "lift")


class PlateMinutes(NamedTuple):
    """The steps of one plate that are free; the bath begins when the pour ends, the wash when the fix ends."""

    pour: Minute
    tank_out: Minute
    expose: Minute
    develop: Minute
    fix: Minute
    lift: Minute


@dataclass(frozen=True)
class Wanted:
    """One sitting to be set: settled between two minutes, both included, or exactly as its hint when `fixed`."""

    plates: tuple[Size, ...]
    earliest: int
    latest: int
    hint: SittingPlan | None = None
    fixed: bool = False

    @property
    def places(self) -> tuple[int, ...]:
        return tuple(size.wash_places for size in self.plates)

    @property
    def uniform(self) -> bool:
        """Its own plates are alike and free to be put in order."""
        return not self.fixed and len(set(self.places)) == 1


class Placed:
    """The minutes of one wanted sitting on the board, and the rules between its own steps."""

    def __init__(self, board: Board, bench: Bench, day: Day, wanted: Wanted) -> None:
        self.board, self.times, self.wanted = board, bench.timings, wanted
        self.opens = day.opens
        closes, racks = day.closes - day.opens, day.racks_empty_by - day.opens
        self.last = max(closes, racks)
        earliest, latest = wanted.earliest - day.opens, wanted.latest - day.opens
        if not 0 <= earliest <= closes or not all(map(bench.tank_takes, wanted.plates)):
            board.never()
        self.settle = board.minute(max(0, earliest), min(closes, latest))
        self.farewell = board.minute(0, closes - self.times.farewell)
        lifted = racks - self.times.lift
        self.plates = [self._plate(lifted) for _ in wanted.plates]
        self._sitting_rules()

    def _plate(self, lifted: int) -> PlateMinutes:
        pour, tank_out, expose, develop, fix = (self.board.minute(0, self.last) for _ in STEPS[:-1])
        plate = PlateMinutes(pour, tank_out, expose, develop, fix, self.board.minute(0, lifted))
        board, times = self.board, self.times
        bath, wash = times.sensitise, times.wash
        board.lag(plate.pour, plate.tank_out, times.pour + bath.least, times.pour + bath.most)
        board.lag(plate.tank_out, plate.expose, times.load)
        board.lag(plate.expose, plate.develop, times.expose)
        board.lag(plate.tank_out, plate.develop, None, times.wet_window - times.develop)
        board.lag(plate.develop, plate.fix, times.develop, times.develop + times.fix_within)
        board.lag(plate.fix, plate.lift, times.fix + wash.least, times.fix + wash.most)
        return plate

    def _sitting_rules(self) -> None:
        board, times = self.board, self.times
        board.lag(self.settle, self.plates[0].pour, 0, times.first_pour_within)
        for plate in self.plates:
            board.lag(self.settle, plate.expose, times.settle)
            board.lag(plate.fix, self.farewell, times.fix)
        for before, plate in zip(self.plates, self.plates[1:], strict=False):
            board.lag(before.pour, plate.pour, times.pour)
            board.lag(before.fix, plate.pour, None, times.next_pour_within)
            board.lag(before.expose, plate.expose, times.expose)
            if self.wanted.uniform:
                self._in_order(before, plate)
        board.lag(self._last_fix(), self.farewell, None, times.fix + times.farewell_within)

    def _in_order(self, before: PlateMinutes, plate: PlateMinutes) -> None:
        for first, second in zip(before, plate, strict=True):
            self.board.lag(first, second, 0)

    def _last_fix(self) -> Minute:
        if self.wanted.uniform:
            return self.plates[-1].fix
        return self.board.last_of((plate.fix for plate in self.plates), 0, self.last)

    def hold(self) -> None:
        """Everything the sitting holds while it runs."""
        board, times = self.board, self.times
        board.hold("operator", self.settle, times.settle)
        board.hold("operator", self.farewell, times.farewell)
        stay = self.last + times.farewell
        board.hold_until("sitters", self.settle, self.farewell + times.farewell, 0, stay)
        for plate, places in zip(self.plates, self.wanted.places, strict=True):
            bath, wash = times.sensitise, times.wash
            board.hold_until("tank", plate.pour + times.pour, plate.tank_out, bath.least, bath.most)
            board.hold_until("wash", plate.fix + times.fix, plate.lift, wash.least, wash.most, places)
            for begin, minutes in (
                (plate.pour, times.pour),
                (plate.tank_out, times.load),
                (plate.expose, times.expose),
                (plate.develop, times.develop),
                (plate.fix, times.fix),
                (plate.lift, times.lift),
            ):
                board.hold("operator", begin, minutes)

    def minutes(self) -> tuple[Minute, ...]:
        """Every minute to be found, in the order of `values`."""
        return (self.settle, self.farewell, *(minute for plate in self.plates for minute in plate))

    def values(self, plan: SittingPlan) -> tuple[int, ...]:
        """The same minutes as a plan has them."""
        steps = (getattr(plate, step) for plate in plan.plates for step in STEPS)
        return tuple(minute - self.opens for minute in (plan.settle, plan.farewell, *steps))

    def plan(self) -> SittingPlan:
        """The plan that the board has found."""
        settle, farewell = (self.opens + self.board.value(each) for each in (self.settle, self.farewell))
        return SittingPlan(settle, farewell, tuple(self._read(plate) for plate in self.plates))

    def _read(self, plate: PlateMinutes) -> PlatePlan:
        pour, tank_out, expose, develop, fix, lift = (self.opens + self.board.value(each) for each in plate)
        tank_in, wash_in = pour + self.times.pour, fix + self.times.fix
        return PlatePlan(pour, tank_in, tank_out, expose, develop, fix, wash_in, lift)


def laid_out(
    board: Board, bench: Bench, day: Day, wanted: Sequence[Wanted], baths: Sequence[tuple[int, int]] = ()
) -> list[Placed]:
    """All wanted sittings on one board with the limits of the bench, in their order.

    `baths` are the minutes, from the opening, in which plates of others are in the tank; the board holds those already.
    """
    placed = [Placed(board, bench, day, each) for each in wanted]
    for each in placed:
        each.hold()
    for resource, most in (
        ("operator", bench.operators),
        ("tank", bench.tank_places),
        ("wash", bench.wash_places),
        ("sitters", bench.sitters_at_once),
    ):
        board.limit(resource, most)
    if bench.rest is not None:
        own = [(plate.pour + bench.timings.pour, plate.tank_out) for each in placed for plate in each.plates]
        last = max(day.closes, day.racks_empty_by) - day.opens
        board.in_groups([*own, *baths], bench.rest.plates, bench.rest.minutes, last)
    for each in placed:
        _look_near(board, each)
    return placed


def _look_near(board: Board, placed: Placed) -> None:
    """The stored plan is where to look first; for a sitting under way it is the only place."""
    if placed.wanted.hint is None:
        return
    for minute, value in zip(placed.minutes(), placed.values(placed.wanted.hint), strict=True):
        if placed.wanted.fixed:
            board.lag(minute, value, 0, 0)
        else:
            board.hint(minute, value)
