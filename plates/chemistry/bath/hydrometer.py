"""What a float says of the bath: a hydrometer its specific gravity, an argentometer its grains per ounce.

Both weigh all that is dissolved. A bath that plates have been in holds alcohol and ether, which make it lighter, and
nitrates of cadmium, ammonium and potassium, which make it heavier: the float then misleads, a titration does not.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from plates.chemistry.bath.density import per_cent_of, strength_of
from plates.chemistry.bath.strength import Strength, grains_per
from plates.chemistry.sentences import Sentence
from plates.chemistry.units import Unit
from plates.chemistry.values import ChemistryValueError, Exact, exact

Scale = Literal["20/20", "60F/60F", "20/4"]

# The density in g/mL of the water that each scale calls 1 (C, from the tables of water).
WATER_OF: dict[Scale, Fraction] = {
    "20/20": Fraction("0.99821"),
    "60F/60F": Fraction("0.99904"),
    "20/4": Fraction(1),
}

USED_BATH = Sentence(
    "Plates have been in this bath: alcohol and ether make it float lighter, dissolved nitrates heavier, so the reading"
    " misleads. Titrate before adding silver."
)
AWAY_FROM_20 = Sentence("Read it at 20 °C if it matters: the correction for warmth is an approximation.")
# Degrees from 20 °C within which the correction stays under 1 g/L.
NEAR_20 = Fraction(5, 2)


@dataclass(frozen=True, slots=True)
class FloatReading:
    """What a float says: the strength, and why it may be wrong."""

    strength: Strength
    warnings: tuple[Sentence, ...]


def read_hydrometer(
    specific_gravity: Exact, scale: Scale, *, celsius: Exact, plates_since_made: int
) -> FloatReading:
    """The strength by specific gravity, read at 15 to 25 °C. Raises ChemistryValueError.

    The glass itself swells too; over five degrees that is less than 0.2 g/L and left out.
    """
    if scale not in WATER_OF:
        raise ChemistryValueError(f"The scale must be one of {', '.join(WATER_OF)}, got {scale!r}.")
    reading = exact("The specific gravity", specific_gravity, above=0)
    strength = strength_of(reading * WATER_OF[scale], celsius)
    far = (AWAY_FROM_20,) if abs(Fraction(celsius) - 20) > NEAR_20 else ()
    return FloatReading(strength, _used(plates_since_made) + far)


def read_argentometer(grains: Exact, ounce: Unit, *, plates_since_made: int) -> FloatReading:
    """The strength by a float marked in grains per fluid ounce, US or imperial. Raises ChemistryValueError.

    Its maker set the scale at one warmth, mostly 60 °F; it is taken as read.
    """
    return FloatReading(grains_per(grains, ounce), _used(plates_since_made))


def specific_gravity(grams_per_ml: Exact, scale: Scale) -> Fraction:
    """What a hydrometer of that scale shows in a liquid of this density."""
    per_cent_of(grams_per_ml)  # refuses what no bath can weigh
    return exact("The density in g/mL", grams_per_ml) / WATER_OF[scale]


def _used(plates: int) -> tuple[Sentence, ...]:
    if exact("Plates since the bath was made", plates, least=0):
        return (USED_BATH,)
    return ()
