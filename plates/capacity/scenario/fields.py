"""Reading one JSON object field by field; whatever does not fit is refused with the field's name."""

import json
import math
import re
from typing import Any

from plates.capacity.problem.bench import Span
from plates.capacity.problem.values import CapacityValueError, whole

CLOCK = re.compile(r"([0-4][0-9]):([0-5][0-9])", re.ASCII)
WHOLE_LIMIT = 10**12


def parsed(text: str) -> object:
    """The JSON value in `text`; doubled keys, NaN and endless numbers are refused, and so is what is not JSON."""
    try:
        return json.loads(text, object_pairs_hook=_once, parse_constant=_no_constant, parse_float=_finite)
    except CapacityValueError:
        raise
    except RecursionError:
        raise CapacityValueError("file", "is nested too deeply") from None
    except ValueError:
        raise CapacityValueError("file", "is not JSON") from None


def _once(pairs: list[tuple[str, object]]) -> dict[str, object]:
    found: dict[str, object] = {}
    for key, value in pairs:
        if key in found:
            raise CapacityValueError(shown(key), "is given twice")
        found[key] = value
    return found


def _no_constant(name: str) -> object:
    raise CapacityValueError("file", f"must not hold {name}")


def _finite(text: str) -> float:
    number = float(text)
    if not math.isfinite(number):
        raise CapacityValueError("file", "holds a number too large")
    return number


def shown(key: str) -> str:
    """A key as it can stand in one line of plain text."""
    return key if re.fullmatch(r"[\w.+-]{1,60}", key, re.ASCII) else json.dumps(key[:60])


class Fields:
    """One JSON object at `path`; every read takes a key, and `done` refuses the keys nobody has taken."""

    def __init__(self, path: str, value: object) -> None:
        if not isinstance(value, dict):
            raise CapacityValueError(path or "file", "must be a JSON object")
        self.path, self.values, self.taken = path, value, set[str]()

    def name(self, key: str) -> str:
        return f"{self.path}.{shown(key)}" if self.path else shown(key)

    def take(self, key: str, default: object) -> Any:
        self.taken.add(key)
        return self.values.get(key, default)

    def inner(self, key: str, default: object) -> "Fields":
        return Fields(self.name(key), self.take(key, default))

    def whole(self, key: str, default: int) -> int:
        return whole(self.name(key), self.take(key, default), -WHOLE_LIMIT, WHOLE_LIMIT)

    def number(self, key: str, default: float, most: float) -> float:
        return number(self.name(key), self.take(key, default), most)

    def clock(self, key: str, default: str | None) -> int:
        """Minutes after midnight from "HH:MM"; hours up to 47 reach past midnight."""
        value = self.take(key, default)
        match = CLOCK.fullmatch(value) if isinstance(value, str) else None
        if not match or int(match[1]) > 47:
            raise CapacityValueError(self.name(key), 'must be a time such as "10:00"')
        return int(match[1]) * 60 + int(match[2])

    def span(self, key: str, default: list[int]) -> Span:
        value, name = self.take(key, default), self.name(key)
        if not isinstance(value, list) or len(value) != 2:
            raise CapacityValueError(name, "must be [least, most] minutes")
        least, most = (whole(name, minutes, 1, 24 * 60) for minutes in value)
        if most < least:
            raise CapacityValueError(name, "must not have its most below its least")
        return Span(least, most)

    def sides(self, key: str) -> tuple[float, float] | None:
        value, name = self.take(key, None), self.name(key)
        if value is None:
            return None
        if not isinstance(value, list) or len(value) != 2:
            raise CapacityValueError(name, "must be two sides in millimetres")
        return number(name, value[0], 5000), number(name, value[1], 5000)

    def text(self, key: str) -> str:
        value = self.take(key, None)
        if not isinstance(value, str) or not 0 < len(value) <= 60:
            raise CapacityValueError(self.name(key), "must be 1 to 60 letters")
        return value

    def items(self, key: str, most: int) -> list[tuple[str, object]]:
        """The list at `key` (none: empty) with the name of each item."""
        value = self.take(key, [])
        if not isinstance(value, list) or len(value) > most:
            raise CapacityValueError(self.name(key), f"must be a list of up to {most}")
        return [(f"{self.name(key)}[{place}]", item) for place, item in enumerate(value)]

    def done(self) -> None:
        for key in self.values:
            if key not in self.taken:
                raise CapacityValueError(self.name(key), "is not a key of a scenario")


def number(name: str, value: object, most: float) -> float:
    """A number from 0 to `most`."""
    if isinstance(value, bool) or not isinstance(value, int | float) or not 0 <= value <= most:
        raise CapacityValueError(name, f"must be a number from 0 to {most:g}")
    return float(value)
