"""A scenario file: one JSON object that says what a bench is asked for (design.md s.3), read strictly.

Every key but "day" may be left out. Beyond the page: "budgets" [{"name", "left", "use"}], "largest_mm" of the bench,
its "rest" {"plates", "minutes"}, and "mm" of a size.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, TypeVar

from plates.capacity.problem.bench import MOST_PLATES, BathRest, Bench, Budget, Day, Sitting, Size, Timings
from plates.capacity.problem.values import CapacityValueError, whole
from plates.capacity.risk.values import MOST, Chances
from plates.capacity.scenario.fields import WHOLE_LIMIT, Fields, number, parsed, shown

MOST_SITTINGS = 120
SIZES = {"quarter": {"wash_places": 1}, "whole": {"wash_places": 2}}
SPANS = ("sensitise", "wash")
MINUTES = (
    "settle", "pour", "load", "expose", "develop", "wet_window", "fix", "fix_within", "lift", "farewell",
    "farewell_within", "first_pour_within", "next_pour_within",
)  # fmt: skip
CALLED = {"sides_mm": "mm"}
Made = TypeVar("Made")


@dataclass(frozen=True, slots=True)
class Scenario:
    """What the file says; `ask` and `most` are the plates asked for, at most one of them given."""

    bench: Bench
    day: Day
    sizes: tuple[Size, ...]
    sittings: tuple[Sitting, ...]
    ask: tuple[Size, ...] | None
    most: tuple[Size, ...] | None
    budgets: tuple[Budget, ...]
    chances: Chances


def read(text: str) -> Scenario:
    """The scenario in `text`; CapacityValueError names the first field that does not fit."""
    fields = Fields("", parsed(text))
    if "day" not in fields.values:
        raise CapacityValueError("day", "is missing")
    day = _day(fields.inner("day", {}))
    bench = _bench(fields)
    sizes = _sizes(fields.inner("sizes", SIZES))
    sittings = tuple(_sitting(name, item, sizes) for name, item in fields.items("sittings", MOST_SITTINGS))
    ask, most = (_wanted(fields, key, sizes) for key in ("ask", "most"))
    if ask and most:
        raise CapacityValueError("most", "cannot be asked together with ask")
    budgets = tuple(_budget(name, item) for name, item in fields.items("budgets", 50))
    chances = _chances(fields.inner("risk", {}))
    fields.done()
    return Scenario(bench, day, tuple(sizes.values()), sittings, ask, most, budgets, chances)


def _made(path: str, make: Callable[[], Made]) -> Made:
    """What `make` makes, with the path put before the field of a refusal."""
    try:
        return make()
    except CapacityValueError as error:
        name = CALLED.get(error.field, error.field)
        raise CapacityValueError(f"{path}.{name}" if path else name, error.message) from None


def _day(fields: Fields) -> Day:
    opens, closes = fields.clock("opens", "10:00"), fields.clock("closes", "18:00")
    racks = fields.clock("racks_empty_by", "19:15")
    every = fields.whole("start_every", 15)
    fields.done()
    if closes <= opens:
        raise CapacityValueError("day.closes", "must be after opens")
    if racks <= opens:
        raise CapacityValueError("day.racks_empty_by", "must be after opens")
    return _made("day", lambda: Day(opens, closes, racks, every))


def _bench(top: Fields) -> Bench:
    timings = _timings(top.inner("timings", {}))
    tolerance = whole("tolerance", top.take("tolerance", 5), 0, 240)
    fields = top.inner("bench", {})
    places = {
        key: fields.whole(key, default)
        for key, default in (("operators", 1), ("tank_places", 1), ("wash_places", 6), ("sitters_at_once", 3))
    }
    largest, rest = fields.sides("largest_mm"), _rest(fields)
    fields.done()
    return _made(
        "bench", lambda: Bench(**places, timings=timings, tolerance=tolerance, largest_mm=largest, rest=rest)
    )


def _rest(bench: Fields) -> BathRest | None:
    if bench.take("rest", None) is None:
        return None
    fields = bench.inner("rest", None)
    plates, minutes = fields.whole("plates", 1), fields.whole("minutes", 1)
    fields.done()
    return _made("bench", lambda: BathRest(plates, minutes))


def _timings(fields: Fields) -> Timings:
    usual = Timings()
    given: dict[str, Any] = {key: fields.whole(key, getattr(usual, key)) for key in MINUTES}
    for key in SPANS:
        span = getattr(usual, key)
        given[key] = fields.span(key, [span.least, span.most])
    fields.done()
    return _made("timings", lambda: Timings(**given))


def _sizes(fields: Fields) -> dict[str, Size]:
    return {name: _size(name, fields.inner(name, {})) for name in fields.values}


def _size(name: str, fields: Fields) -> Size:
    places, sides = fields.whole("wash_places", 1), fields.sides("mm")
    fields.done()
    return _made(fields.path, lambda: Size(name, places, sides))


def _plates(fields: Fields, sizes: dict[str, Size]) -> tuple[Size, ...]:
    named = fields.items("plates", MOST_PLATES)
    if not named:
        raise CapacityValueError(fields.name("plates"), "must name at least one plate")
    return tuple(_known(name, item, sizes) for name, item in named)


def _known(name: str, item: object, sizes: dict[str, Size]) -> Size:
    if not isinstance(item, str) or item not in sizes:
        raise CapacityValueError(name, f"must be one of {', '.join(map(shown, sizes)) or 'no sizes'}")
    return sizes[item]


def _sitting(name: str, item: object, sizes: dict[str, Size]) -> Sitting:
    fields = Fields(name, item)
    start, plates = fields.clock("start", None), _plates(fields, sizes)
    fields.done()
    return Sitting(start, plates)


def _wanted(top: Fields, key: str, sizes: dict[str, Size]) -> tuple[Size, ...] | None:
    if top.take(key, None) is None:
        return None
    fields = top.inner(key, None)
    plates = _plates(fields, sizes)
    fields.done()
    return plates


def _budget(path: str, item: object) -> Budget:
    fields = Fields(path, item)
    name, left = (
        fields.text("name"),
        whole(f"{path}.left", fields.take("left", None), -WHOLE_LIMIT, WHOLE_LIMIT),
    )
    use = fields.inner("use", {})
    units = {size: use.whole(size, 1) for size in use.values}
    fields.done()
    return _made(path, lambda: Budget(name, left, units))


def _chances(fields: Fields) -> Chances:
    usual = Chances()
    given = {name: fields.number(name, getattr(usual, name), most) for name, most in MOST}
    limit = fields.take("chance_limit", None)
    if limit is not None:
        limit = number(fields.name("chance_limit"), limit, 1.0)
    fields.done()
    return Chances(**given, chance_limit=limit)
