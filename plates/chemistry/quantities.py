"""How much of something: an exact amount in a unit, told in the measures that stand in the darkroom."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from plates.chemistry.units import GRAM, MILLILITRE, UNITS, Unit, unit
from plates.chemistry.values import ChemistryValueError, Exact, exact, figures, nearest

APOTHECARIES = tuple(UNITS[key] for key in ("apothecaries_ounce", "drachm", "grain"))
AVOIRDUPOIS = tuple(UNITS[key] for key in ("avoirdupois_ounce", "grain"))
US = tuple(UNITS[key] for key in ("us_ounce", "us_drachm", "us_minim"))
IMPERIAL = tuple(UNITS[key] for key in ("imperial_ounce", "imperial_drachm", "imperial_minim"))
TENTH = Fraction(1, 10)


@dataclass(frozen=True, slots=True)
class Quantity:
    """An exact amount of 0 or more in one unit. Raises ChemistryValueError."""

    amount: Fraction
    unit: Unit

    def __post_init__(self) -> None:
        exact(f"The amount in {self.unit.plural}", self.amount, least=0)
        if not isinstance(self.amount, Fraction):
            raise ChemistryValueError("The amount of a quantity must be a fraction; quantity() makes one.")

    @property
    def metric(self) -> Fraction:
        """Grams of a mass, millilitres of a volume."""
        return self.amount * self.unit.size

    def to(self, other: Unit) -> "Quantity":
        """The same in another unit of the same kind; a mass is never made a volume. Raises ChemistryValueError."""
        if other.measures != self.unit.measures:
            raise ChemistryValueError(
                f"{self.unit.name} is a {self.unit.measures}, {other.name} a {other.measures}: weigh or measure it."
            )
        return Quantity(self.metric / other.size, other)

    def times(self, factor: Exact) -> "Quantity":
        return Quantity(self.amount * exact("The factor", factor, least=0), self.unit)

    def __str__(self) -> str:
        # Two figures of what is small: a trace in a recipe must never read as nothing.
        places = next((places for places in (2, 3, 4, 5) if self.amount * 10**places >= 10), 5)
        rounded = figures(self.amount, places).rstrip("0").rstrip(".")
        return f"{rounded} {self.unit.name if rounded == '1' else self.unit.plural}"


def quantity(amount: Exact, key: str) -> Quantity:
    """So much of the unit with this key. Raises ChemistryValueError."""
    return Quantity(exact("The amount", amount, least=0), unit(key))


def grams(amount: Exact) -> Quantity:
    return Quantity(exact("Grams", amount, least=0), GRAM)


def millilitres(amount: Exact) -> Quantity:
    return Quantity(exact("Millilitres", amount, least=0), MILLILITRE)


def in_measures(
    whole: Quantity, measures: Sequence[Unit], *, finest: Fraction = TENTH
) -> tuple[Quantity, ...]:
    """Tell a quantity in these units from the largest down, the last rounded to multiples of `finest`.

    It is rounded first and shared out then, so that never 60 minims stand where one more drachm would. What comes to
    nothing is left out, except that nothing at all is told in the smallest unit. Raises ChemistryValueError.
    """
    smallest = measures[-1]
    left = nearest(whole.to(smallest).amount, exact("The finest step", finest, above=0))
    told = []
    for measure in measures[:-1]:
        count = left * smallest.size // measure.size
        left -= count * measure.size / smallest.size
        told.append(Quantity(Fraction(count), measure))
    told.append(Quantity(left, smallest))
    return tuple(each for each in told if each.amount) or (Quantity(Fraction(0), smallest),)


def in_words(told: Sequence[Quantity]) -> str:
    """A quantity told in several units, for example "1 US fluid ounce 2 US fluid drachms"."""
    return " ".join(str(each) for each in told)
