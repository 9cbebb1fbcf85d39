"""What one bench can do in one day, and what is asked of it. All times are whole minutes.

The durations are planning values (the studio edits them). "About three minutes in the silver bath" and
"about an hour of washing" are common practice, no source.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

from plates.capacity.problem.values import CapacityValueError, sides, whole

MOST_MINUTES = 24 * 60
MOST_HANDS = 20
MOST_TANK_PLACES = 20
MOST_WASH_PLACES = 200
MOST_SITTERS = 100
MOST_PLATES = 24


@dataclass(frozen=True, slots=True)
class Span:
    """From `least` to `most` minutes, both included."""

    least: int
    most: int

    def __post_init__(self) -> None:
        whole("least", self.least, 1, MOST_MINUTES)
        whole("most", self.most, 1, MOST_MINUTES)
        if self.most < self.least:
            raise CapacityValueError("most", "must not be below least")


@dataclass(frozen=True, slots=True)
class Timings:
    """Minutes of each step of a sitting; the rules between the steps are in design.md s.3."""

    settle: int = 4
    pour: int = 2
    sensitise: Span = Span(3, 5)
    load: int = 1
    expose: int = 2
    develop: int = 2
    wet_window: int = 8
    fix: int = 2
    fix_within: int = 2
    wash: Span = Span(60, 120)
    lift: int = 1
    farewell: int = 2
    farewell_within: int = 5
    first_pour_within: int = 12
    next_pour_within: int = 11

    def __post_init__(self) -> None:
        for name in ("pour", "expose", "develop", "wet_window", "fix"):
            whole(name, getattr(self, name), 1, 240)
        for name in ("settle", "load", "lift", "farewell"):
            whole(name, getattr(self, name), 0, 240)
        for name in ("fix_within", "farewell_within", "first_pour_within", "next_pour_within"):
            whole(name, getattr(self, name), 0, 240)
        for name in ("sensitise", "wash"):
            if not isinstance(getattr(self, name), Span):
                raise CapacityValueError(name, "must be a span of minutes")
        if self.sensitise.most > 240:
            raise CapacityValueError("sensitise", "must be up to 240 minutes")
        if self.wet_slack < 0:
            raise CapacityValueError("wet_window", "must hold load, expose and develop together")

    @property
    def wet_slack(self) -> int:
        """Minutes a plate may wait between the bath and the end of developing."""
        return self.wet_window - self.load - self.expose - self.develop


@dataclass(frozen=True, slots=True)
class Size:
    """A plate size: the wash places one plate takes, and its sides in millimetres when known."""

    name: str
    wash_places: int = 1
    sides_mm: tuple[float, float] | None = None

    def __post_init__(self) -> None:
        if not isinstance(self.name, str) or not 0 < len(self.name) <= 60:
            raise CapacityValueError("name", "must be 1 to 60 letters")
        whole("wash_places", self.wash_places, 1, MOST_WASH_PLACES)
        sides("sides_mm", self.sides_mm)


@dataclass(frozen=True, slots=True)
class BathRest:
    """After `plates` plates the tank stays empty for `minutes` before the next; any pause as long counts."""

    plates: int
    minutes: int

    def __post_init__(self) -> None:
        whole("rest.plates", self.plates, 1, 1000)
        whole("rest.minutes", self.minutes, 1, MOST_MINUTES)


@dataclass(frozen=True, slots=True)
class Bench:
    """Hands, tank and wash places of one bench; `largest_mm` is the largest plate the tank takes (None: any).

    A promised start may slip by `tolerance` minutes, never come early. `rest`: the pauses of the silver bath (None:
    it needs none).
    """

    operators: int = 1
    tank_places: int = 1
    wash_places: int = 6
    sitters_at_once: int = 3
    timings: Timings = field(default_factory=Timings)
    tolerance: int = 5
    largest_mm: tuple[float, float] | None = None
    rest: BathRest | None = None

    def __post_init__(self) -> None:
        whole("operators", self.operators, 1, MOST_HANDS)
        whole("tank_places", self.tank_places, 1, MOST_TANK_PLACES)
        whole("wash_places", self.wash_places, 1, MOST_WASH_PLACES)
        whole("sitters_at_once", self.sitters_at_once, 1, MOST_SITTERS)
        whole("tolerance", self.tolerance, 0, 240)
        if not isinstance(self.timings, Timings):
            raise CapacityValueError("timings", "must be timings")
        if self.rest is not None and not isinstance(self.rest, BathRest):
            raise CapacityValueError("rest", "must be a rest of the bath")
        sides("largest_mm", self.largest_mm)
        if self.operators == 1 and self.timings.first_pour_within < self.timings.settle:
            raise CapacityValueError("first_pour_within", "must reach past settle: one operator does both")

    def tank_takes(self, size: Size) -> bool:
        """Whether a plate of this size goes into the tank, either way round."""
        if self.largest_mm is None or size.sides_mm is None:
            return True
        return all(
            side <= room for side, room in zip(sorted(size.sides_mm), sorted(self.largest_mm), strict=True)
        )


@dataclass(frozen=True, slots=True)
class Day:
    """Hours in minutes on any one axis; starts are promised every `start_every` minutes from opens."""

    opens: int
    closes: int
    racks_empty_by: int
    start_every: int = 15

    def __post_init__(self) -> None:
        whole("opens", self.opens, -(10**9), 10**9)
        whole("closes", self.closes, self.opens + 1, self.opens + 3 * MOST_MINUTES)
        whole("racks_empty_by", self.racks_empty_by, self.opens + 1, self.opens + 3 * MOST_MINUTES)
        whole("start_every", self.start_every, 1, MOST_MINUTES)


@dataclass(frozen=True, slots=True)
class Budget:
    """Units of one chemistry for all plates of the day, the booked ones included.

    `use` gives the units one plate takes by the name of its size; a size not named takes 1. `left` below
    nought means more is promised elsewhere than is in stock.
    """

    name: str
    left: int
    use: Mapping[str, int] = field(default_factory=dict)

    def __post_init__(self) -> None:
        if not isinstance(self.name, str) or not 0 < len(self.name) <= 60:
            raise CapacityValueError("name", "must be 1 to 60 letters")
        whole("left", self.left, -(10**12), 10**12)
        for name, units in self.use.items():
            whole(f"use.{name}", units, 0, 10**9)

    def units(self, size: Size) -> int:
        return self.use.get(size.name, 1)


@dataclass(frozen=True, slots=True)
class Sitting:
    """One promised start and the plates to be made in it, in order."""

    start: int
    plates: tuple[Size, ...]

    def __post_init__(self) -> None:
        whole("start", self.start, -(10**9), 2 * 10**9)
        if not isinstance(self.plates, tuple) or not all(isinstance(plate, Size) for plate in self.plates):
            raise CapacityValueError("plates", "must be plate sizes")
        if not 1 <= len(self.plates) <= MOST_PLATES:
            raise CapacityValueError("plates", f"must be 1 to {MOST_PLATES} plates")
