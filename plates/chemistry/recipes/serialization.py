"""The lines of a recipe as they are written down in a row, and read back: amounts as exact words, "3/2" or "12.5"."""

from collections.abc import Iterable, Mapping
from decimal import Decimal
from fractions import Fraction
from typing import Literal, TypeAlias

from plates.chemistry.quantities import Quantity
from plates.chemistry.recipes.scaling import Ingredient
from plates.chemistry.sentences import Sentence
from plates.chemistry.units import unit
from plates.chemistry.values import ChemistryValueError, exact

Written: TypeAlias = dict[str, str | bool]
LONGEST = 24


def dump(lines: Iterable[Ingredient]) -> list[Written]:
    """The lines as plain words that a row can hold."""
    return [_written(line) for line in lines]


def load(rows: object) -> tuple[Ingredient, ...]:
    """The lines of such words. Raises ChemistryValueError."""
    if not isinstance(rows, list) or not all(isinstance(row, dict) for row in rows):
        raise ChemistryValueError("The lines of a recipe must be a list of what goes in.")
    return tuple(_read(row) for row in rows)


def amount_from(words: str) -> Fraction:
    """An amount as people write it: "12", "12.5" or "1/2". Raises ChemistryValueError."""
    text = words.strip().replace(",", ".")
    if not text or len(text) > LONGEST or not set(text) <= set("0123456789./"):
        raise _no_amount(words)
    try:
        return exact("The amount", Fraction(text), least=0)
    except (ValueError, ZeroDivisionError) as error:
        raise _no_amount(words) from error


def _no_amount(words: str) -> ChemistryValueError:
    return ChemistryValueError(Sentence("{words} is no amount: write 12, 12.5 or 1/2.", words=repr(words)))


def plainly(value: Fraction) -> str:
    """An exact amount as it is best read: 12.5 rather than 25/2, but 1/3."""
    places = next((each for each in range(10) if (value * 10**each).denominator == 1), None)
    if places is None:
        return str(value)
    return f"{Decimal(int(value * 10**places)).scaleb(-places):f}"


def metric_amount(line: Ingredient, measures: Literal["mass", "volume"]) -> Fraction:
    """Grams or millilitres of a line; 0 where it is measured the other way, or not at all."""
    taken = line.quantity
    return taken.metric if taken and taken.unit.measures == measures else Fraction(0)


def _written(line: Ingredient) -> Written:
    row: Written = {"name": line.name, "substance": line.substance}
    if line.makes_up:
        row["makes_up"] = True
    for name, taken in (("amount", line.quantity), ("most", line.most)):
        if taken is not None:
            row |= {name: plainly(taken.amount), "unit": taken.unit.key}
    return row


def _read(row: Mapping[str, object]) -> Ingredient:
    measure = unit(str(row["unit"])) if row.get("unit") else None

    def taken(name: str) -> Quantity | None:
        words = row.get(name)
        return Quantity(amount_from(str(words)), measure) if words and measure else None

    return Ingredient(
        name=str(row.get("name", "")),
        quantity=taken("amount"),
        most=taken("most"),
        makes_up=row.get("makes_up") is True,
        substance=str(row.get("substance", "")),
    )
