"""Refusing impossible values, and how sure a printed value is.

Every number in this package is an exact fraction: what is converted there and back is the same again.
"""

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Literal, TypeAlias

Exact: TypeAlias = int | Decimal | Fraction
Confidence = Literal["A", "B", "C", "D", "E"]

CONFIDENCE: dict[Confidence, str] = {
    "A": "an official or primary printed text",
    "B": "a secondary text, or one published test",
    "C": "worked out from printed values",
    "D": "common practice, no source",
    "E": "from memory, not checked",
}


class ChemistryValueError(ValueError):
    """A value that no solution, recipe or reading can have; the text says which and why."""


@dataclass(frozen=True, slots=True)
class Source:
    """Where a value is printed, and how sure it is (see CONFIDENCE)."""

    text: str
    confidence: Confidence

    def __post_init__(self) -> None:
        if not self.text.strip():
            raise ChemistryValueError("A source needs words that say where the value is from.")
        if self.confidence not in CONFIDENCE:
            raise ChemistryValueError(
                f"A source is sure to one of {', '.join(CONFIDENCE)}, got {self.confidence!r}."
            )


def exact(
    name: str,
    value: object,
    *,
    above: Exact | None = None,
    least: Exact | None = None,
    most: Exact | None = None,
) -> Fraction:
    """The value as a fraction, if it is an int, Decimal or Fraction within these bounds.

    Floats are refused: 0.1 is none of them exactly. Raises ChemistryValueError.
    """
    if isinstance(value, bool) or not isinstance(value, int | Decimal | Fraction):
        raise ChemistryValueError(f"{name} must be an exact number, got {value!r}.")
    if isinstance(value, Decimal) and not value.is_finite():
        raise ChemistryValueError(f"{name} must be a number, got {value}.")
    number = Fraction(value)
    if above is not None and number <= above:
        raise ChemistryValueError(f"{name} must be above {above}, got {value}.")
    if least is not None and number < least:
        raise ChemistryValueError(f"{name} must be at least {least}, got {value}.")
    if most is not None and number > most:
        raise ChemistryValueError(f"{name} must be at most {most}, got {value}.")
    return number


def nearest(value: Fraction, step: Fraction) -> Fraction:
    """The multiple of `step` nearest to a value of 0 or more, halves upward."""
    return (value / step + Fraction(1, 2)) // 1 * step


def figures(value: Fraction, places: int) -> str:
    """A value of 0 or more in decimals, rounded half up to so many places."""
    whole = int(nearest(value * 10**places, Fraction(1)))
    digits = f"{whole:0{places + 1}d}"
    return f"{digits[:-places]}.{digits[-places:]}" if places else digits
