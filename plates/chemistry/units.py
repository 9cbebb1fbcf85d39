"""The units that recipes are printed in, each by its exact size in grams or millilitres.

NIST Handbook 44, appendix C (A): the pound is 453.592 37 g and 7000 grains, the US gallon 231 cubic inches; the
imperial gallon is 4.546 09 litres (E, exact by definition). An ounce of either kind is not an ounce of the other, so
every name says which it is.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from plates.chemistry.values import ChemistryValueError, exact

Measures = Literal["mass", "volume"]
System = Literal["metric", "avoirdupois", "apothecaries", "US", "imperial", "parts"]


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit; `size` is in grams for a mass and in millilitres for a volume."""

    key: str
    name: str
    plural: str
    measures: Measures
    system: System
    size: Fraction

    def __post_init__(self) -> None:
        exact(f"The size of {self.name}", self.size, above=0)


POUND = Fraction("453.59237")
GRAIN = POUND / 7000
CUBIC_INCH = Fraction("2.54") ** 3
US_FLUID_OUNCE = 231 * CUBIC_INCH / 128
IMPERIAL_FLUID_OUNCE = Fraction("4546.09") / 160


def _fluid(system: Literal["US", "imperial"], ounce: Fraction, ounces_in_pint: int) -> tuple[Unit, ...]:
    sizes = (
        ("minim", "minim", ounce / 480),
        ("drachm", "fluid drachm", ounce / 8),
        ("ounce", "fluid ounce", ounce),
        ("pint", "pint", ounce * ounces_in_pint),
    )
    return tuple(
        Unit(
            f"{system.lower()}_{key}",
            f"{system} {name}",
            f"{system} {name}s",
            "volume",
            system,
            Fraction(size),
        )
        for key, name, size in sizes
    )


_ALL = (
    Unit("mg", "mg", "mg", "mass", "metric", Fraction(1, 1000)),
    Unit("g", "g", "g", "mass", "metric", Fraction(1)),
    Unit("kg", "kg", "kg", "mass", "metric", Fraction(1000)),
    Unit("ml", "mL", "mL", "volume", "metric", Fraction(1)),
    Unit("l", "L", "L", "volume", "metric", Fraction(1000)),
    # The grain is the same in every system (Handbook 44, appendix C).
    Unit("grain", "grain", "grains", "mass", "apothecaries", GRAIN),
    Unit("scruple", "scruple", "scruples", "mass", "apothecaries", 20 * GRAIN),
    Unit("drachm", "apothecaries drachm", "apothecaries drachms", "mass", "apothecaries", 60 * GRAIN),
    Unit(
        "apothecaries_ounce", "apothecaries ounce", "apothecaries ounces", "mass", "apothecaries", 480 * GRAIN
    ),
    Unit("avoirdupois_dram", "avoirdupois dram", "avoirdupois drams", "mass", "avoirdupois", POUND / 256),
    Unit("avoirdupois_ounce", "avoirdupois ounce", "avoirdupois ounces", "mass", "avoirdupois", POUND / 16),
    Unit("pound", "pound", "pounds", "mass", "avoirdupois", POUND),
    *_fluid("US", US_FLUID_OUNCE, 16),
    *_fluid("imperial", IMPERIAL_FLUID_OUNCE, 20),
    # A recipe in parts is one in millilitres until it is scaled.
    Unit("part", "part by volume", "parts by volume", "volume", "parts", Fraction(1)),
)
UNITS = {unit.key: unit for unit in _ALL}

GRAM = UNITS["g"]
MILLILITRE = UNITS["ml"]
US_OUNCE = UNITS["us_ounce"]
IMPERIAL_OUNCE = UNITS["imperial_ounce"]


def unit(key: str) -> Unit:
    """The unit of that key. Raises ChemistryValueError."""
    if key not in UNITS:
        raise ChemistryValueError(f"There is no unit {key!r}: one of {', '.join(UNITS)} was wanted.")
    return UNITS[key]


def read_in(one: Unit, system: Literal["US", "imperial"]) -> Unit:
    """The unit of the same name in the other fluid measure; a unit that has no twin stays as it is."""
    if one.system not in ("US", "imperial"):
        return one
    return UNITS[f"{system.lower()}_{one.key.partition('_')[2]}"]
