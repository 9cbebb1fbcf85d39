"""Refusing impossible values: one error, and the checks that raise it."""

import math


class CapacityValueError(ValueError):
    """A value that no bench, day or sitting can have. `field` names it; str is "field: message"."""

    def __init__(self, field: str, message: str) -> None:
        super().__init__(f"{field}: {message}")
        self.field = field
        self.message = message


def whole(name: str, value: object, least: int, most: int) -> int:
    """The value, if it is a whole number from least to most; CapacityValueError if not."""
    if isinstance(value, bool) or not isinstance(value, int):
        raise CapacityValueError(name, "must be a whole number")
    if not least <= value <= most:
        raise CapacityValueError(name, f"must be from {least} to {most}")
    return value


def sides(name: str, value: object) -> None:
    """Refuse anything but None or two sides in millimetres."""
    if value is None:
        return
    if not isinstance(value, tuple) or len(value) != 2:
        raise CapacityValueError(name, "must be two sides in millimetres")
    for side in value:
        if isinstance(side, bool) or not isinstance(side, int | float):
            raise CapacityValueError(name, "must be two sides in millimetres")
        if not math.isfinite(side) or not 0 < side <= 5000:
            raise CapacityValueError(name, "must be sides above 0 and up to 5000 millimetres")
