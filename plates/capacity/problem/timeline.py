"""A sitting laid out in minutes, and what it occupies while it runs."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass, fields, replace
from typing import Literal, NamedTuple

from plates.capacity.problem.bench import Bench, Sitting
from plates.capacity.problem.values import CapacityValueError, whole

Resource = Literal["operator", "tank", "wash", "sitter"]


@dataclass(frozen=True, slots=True)
class PlatePlan:
    """Start minute of each step. Loading starts at tank_out; the wash place is held from wash_in to lift."""

    pour: int
    tank_in: int
    tank_out: int
    expose: int
    develop: int
    fix: int
    wash_in: int
    lift: int


@dataclass(frozen=True, slots=True)
class SittingPlan:
    """The verified minutes of one sitting, as stored beside its booking."""

    settle: int
    farewell: int
    plates: tuple[PlatePlan, ...]

    def as_json(self) -> dict[str, object]:
        """Plain dict of whole numbers: settle, farewell and one dict a plate."""
        return {
            "settle": self.settle,
            "farewell": self.farewell,
            "plates": [asdict(plate) for plate in self.plates],
        }

    @classmethod
    def from_json(cls, stored: object) -> "SittingPlan":
        """The reverse of as_json; CapacityValueError names the first value that does not fit."""
        plan = _keys("plan", stored, {"settle", "farewell", "plates"})
        plates = plan["plates"]
        if not isinstance(plates, list):
            raise CapacityValueError("plates", "must be a list")
        return cls(
            settle=_minute("settle", plan["settle"]),
            farewell=_minute("farewell", plan["farewell"]),
            plates=tuple(_plate(f"plates[{place}]", plate) for place, plate in enumerate(plates)),
        )


@dataclass(frozen=True, slots=True)
class Booked:
    """A sitting with its stored plan. `begun`: it is under way, so no re-plan may move it."""

    sitting: Sitting
    plan: SittingPlan
    begun: bool = False

    def __post_init__(self) -> None:
        if len(self.plan.plates) != len(self.sitting.plates):
            raise CapacityValueError("plan", "must hold one plate plan for each plate")


def planned(booked: Sequence[Booked], plans: Sequence[SittingPlan], asked: Sitting) -> tuple[Booked, ...]:
    """The booked sittings with their new plans and the asked one last; one plan for each of them."""
    *kept, mine = plans
    before = (replace(each, plan=plan) for each, plan in zip(booked, kept, strict=True))
    return (*before, Booked(asked, mine))


class Occupation(NamedTuple):
    """`amount` of a resource taken from `begin` up to but not including `end`."""

    resource: Resource
    begin: int
    end: int
    amount: int
    what: str
    plate: int | None


def occupations(bench: Bench, booked: Booked) -> tuple[Occupation, ...]:
    """Everything one booked sitting occupies, in the order of the work; steps of no length are left out."""
    return tuple(taken for taken in _all(bench, booked) if taken.begin < taken.end)


def _all(bench: Bench, booked: Booked) -> Iterator[Occupation]:
    timings, plan = bench.timings, booked.plan
    yield Occupation("sitter", plan.settle, plan.farewell + timings.farewell, 1, "present", None)
    yield Occupation("operator", plan.settle, plan.settle + timings.settle, 1, "settle", None)
    for number, (plate, size) in enumerate(zip(plan.plates, booked.sitting.plates, strict=True)):
        yield Occupation("operator", plate.pour, plate.pour + timings.pour, 1, "pour", number)
        yield Occupation("tank", plate.tank_in, plate.tank_out, 1, "sensitise", number)
        yield Occupation("operator", plate.tank_out, plate.tank_out + timings.load, 1, "load", number)
        yield Occupation("operator", plate.expose, plate.expose + timings.expose, 1, "expose", number)
        yield Occupation("operator", plate.develop, plate.develop + timings.develop, 1, "develop", number)
        yield Occupation("operator", plate.fix, plate.fix + timings.fix, 1, "fix", number)
        yield Occupation("wash", plate.wash_in, plate.lift, size.wash_places, "wash", number)
        yield Occupation("operator", plate.lift, plate.lift + timings.lift, 1, "lift", number)
    yield Occupation("operator", plan.farewell, plan.farewell + timings.farewell, 1, "farewell", None)


def _keys(name: str, stored: object, wanted: set[str]) -> Mapping[str, object]:
    if not isinstance(stored, dict) or set(stored) != wanted:
        raise CapacityValueError(name, f"must hold exactly {', '.join(sorted(wanted))}")
    return stored


def _minute(name: str, stored: object) -> int:
    return whole(name, stored, -2 * 10**9, 2 * 10**9)


def _plate(name: str, stored: object) -> PlatePlan:
    steps = [step.name for step in fields(PlatePlan)]
    plate = _keys(name, stored, set(steps))
    return PlatePlan(**{step: _minute(f"{name}.{step}", plate[step]) for step in steps})
