"""The parts of a day drawn as lanes, in lengths of the drawing: x runs with time, y down the places."""

from dataclasses import dataclass

from plates.capacity import Booked


@dataclass(frozen=True, slots=True)
class LaneJob:
    """One promised sitting: what to call it, its plan, and whether it is firm or only held."""

    label: str
    booked: Booked
    firm: bool


@dataclass(frozen=True, slots=True)
class Bar:
    """Something that takes a place for a while, in lengths of the drawing."""

    x: int
    y: int
    width: int
    height: int
    step: str
    firm: bool
    label: str
    title: str


@dataclass(frozen=True, slots=True)
class Lane:
    """One place of the bench. `beyond`: the bench as it now stands has no such place any more."""

    group: str
    name: str
    y: int
    middle: int
    beyond: bool
    bars: tuple[Bar, ...]


@dataclass(frozen=True, slots=True)
class Tick:
    """A whole hour on the clock."""

    x: int
    label: str


@dataclass(frozen=True, slots=True)
class PlateTimes:
    """The drawing in words: when each step of one plate begins, as the clock shows it."""

    label: str
    number: int
    size: str
    firm: bool
    pour: str
    bath: str
    expose: str
    develop: str
    fix: str
    wash: str
    lift: str


@dataclass(frozen=True, slots=True)
class Drawing:
    """All of it; `closes_x` and `now_x` are where those lines stand, `now_x` is None outside the day."""

    width: int
    height: int
    lanes: tuple[Lane, ...]
    ticks: tuple[Tick, ...]
    closes_x: int
    now_x: int | None
    now_label: str
    summary: str
    plates: tuple[PlateTimes, ...]

    @property
    def beyond(self) -> bool:
        """Whether more is promised at once than the bench as it now stands has places for."""
        return any(lane.beyond for lane in self.lanes)
