"""What plates carry off from the silver bath, and whether the bath still holds what its book says.

Most of it leaves as bath that clings to the plate, little as silver that the film takes; the collodion leaves alcohol
and ether behind.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from plates.chemistry.bath.dosing import Bath
from plates.chemistry.bath.strength import Strength
from plates.chemistry.sentences import Sentence
from plates.chemistry.values import ChemistryValueError, Exact, Source, exact

MEASURED = Source(
    "a maker's technical note of January 2026, titration before and after 23 plates: 1.39 mg/cm² at 9 % w/v",
    "B",
)
SPLIT = Source(
    "that figure split by what the film's salts can bind: 0.12 mg/cm², the rest clinging bath", "C"
)
LEFT_BEHIND = Source("0.5 to 1 mL of alcohol and ether for each 4×5 plate", "E")


@dataclass(frozen=True, slots=True)
class CarryOff:
    """For each square centimetre of plate: mL of bath that cling, g of silver nitrate that the film takes, mL of
    alcohol and ether that the collodion leaves. The studio puts its own figures here."""

    clinging_ml: Fraction = Fraction("0.014")
    film_grams: Fraction = Fraction("0.00012")
    left_ml: Fraction = Fraction("0.75") / Fraction("129.032")

    def __post_init__(self) -> None:
        for name in ("clinging_ml", "film_grams", "left_ml"):
            exact(f"The figure for {name}", getattr(self, name), least=0, most=1)


USUAL = CarryOff()


def silver_nitrate_of_plate(area_cm2: Exact, strength: Strength, rates: CarryOff = USUAL) -> Fraction:
    """Grams of silver nitrate that a plate of this area takes out of a bath of this strength."""
    area = exact("The area in cm²", area_cm2, above=0)
    return area * (rates.clinging_ml * strength.grams_per_litre / 1000 + rates.film_grams)


def after_plates(before: Bath, areas_cm2: Iterable[Exact], rates: CarryOff = USUAL) -> Bath:
    """The bath after these plates, one after another. Raises ChemistryValueError when they would take all of it."""
    left = before
    for area in areas_cm2:
        silver = left.silver_nitrate_grams - silver_nitrate_of_plate(area, left.strength, rates)
        volume = left.millilitres + Fraction(area) * (rates.left_ml - rates.clinging_ml)
        if silver <= 0 or volume <= 0:
            raise ChemistryValueError(Sentence("These plates would take more silver than the bath holds."))
        left = Bath(volume, Strength(silver / volume * 1000))
    return left
