"""How strong a solution is, in every way that it is printed; grams per litre is what counts.

"Per cent" alone is ambiguous: of silver nitrate, 9 % by volume of bath (w/v) is 90 g/L, 9 % by weight (w/w) is 97. And
a grain per ounce is 2.19 g/L by the US fluid ounce, 2.28 by the imperial one. So each is named in full.
"""

from dataclasses import dataclass
from fractions import Fraction

from plates.chemistry.units import GRAIN, Unit
from plates.chemistry.values import ChemistryValueError, Exact, exact

# Silver nitrate is far from this strong in any bath; more is a slip of the decimal point.
STRONGEST = 1000


@dataclass(frozen=True, slots=True)
class Strength:
    """Grams of salt in one litre of solution, 0 to 1000. Raises ChemistryValueError."""

    grams_per_litre: Fraction

    def __post_init__(self) -> None:
        exact("The strength in g/L", self.grams_per_litre, least=0, most=STRONGEST)
        if not isinstance(self.grams_per_litre, Fraction):
            raise ChemistryValueError("A strength must be a fraction; grams_per_litre() makes one.")

    @property
    def per_cent_w_v(self) -> Fraction:
        """Grams in 100 mL of solution."""
        return self.grams_per_litre / 10

    def grains_per(self, ounce: Unit) -> Fraction:
        """Grains in one fluid ounce, US or imperial as the unit says."""
        _require_volume(ounce)
        return self.grams_per_litre / 1000 * ounce.size / GRAIN


def grams_per_litre(value: Exact) -> Strength:
    return Strength(exact("The strength in g/L", value))


def per_cent_w_v(value: Exact) -> Strength:
    return Strength(exact("Per cent by volume (w/v)", value) * 10)


def grains_per(value: Exact, ounce: Unit) -> Strength:
    """So many grains to the fluid ounce of that unit. Raises ChemistryValueError."""
    _require_volume(ounce)
    return Strength(exact("Grains per ounce", value) * GRAIN / ounce.size * 1000)


def _require_volume(ounce: Unit) -> None:
    if ounce.measures != "volume":
        raise ChemistryValueError(f"Say which fluid ounce, US or imperial; the {ounce.name} is a weight.")
