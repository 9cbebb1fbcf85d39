"""How strong a bath is by what it uses up: thiocyanate to the first red (Volhard), or silver chloride weighed.

Silver alone is counted, so a used bath does not mislead it. The acid, the iron indicator and the silver itself burn and
stain: goggles and gloves, and the rest of the sample goes to the silver waste.
"""

from dataclasses import dataclass
from fractions import Fraction

from plates.chemistry.bath.strength import Strength
from plates.chemistry.sentences import Sentence
from plates.chemistry.values import Exact, exact

# Grams in a mole: IUPAC standard atomic weights Ag 107.8682, N 14.007, O 15.999, Cl 35.45 (from memory, E);
# trade-facts s.4 has 169.873 and 143.321 (C), which agree to five figures.
SILVER_NITRATE = Fraction("169.873")
SILVER_CHLORIDE = Fraction("143.321")
SILVER = Fraction("107.868")

TOO_HEAVY = Sentence(
    "The float reads heavier than the silver in the bath: go by the titration, and think of sunning the bath."
)
TOO_LIGHT = Sentence(
    "The float reads lighter than the silver in the bath: go by the titration, and think of sunning the bath."
)
# How far float and titration may be apart before one of them is to be doubted, of the titration (D).
DOUBT = Fraction(5, 100)


@dataclass(frozen=True, slots=True)
class Compared:
    """The strength to go by, and what to make of two measurements of one bath."""

    strength: Strength
    warnings: tuple[Sentence, ...]


def by_thiocyanate(*, used_ml: Exact, molar: Exact, sample_ml: Exact) -> Strength:
    """The strength of a sample that took so many mL of thiocyanate of so many moles a litre.

    One mole takes one mole of silver. Raises ChemistryValueError.
    """
    millimoles = exact("Thiocyanate in mL", used_ml, least=0) * exact("Its moles a litre", molar, above=0)
    return Strength(millimoles * SILVER_NITRATE / exact("The sample in mL", sample_ml, above=0))


def compare(floated: Strength, titrated: Strength) -> Compared:
    """Go by the titration, and say so when the float is further off than measuring explains."""
    apart = abs(floated.grams_per_litre - titrated.grams_per_litre)
    if apart <= DOUBT * titrated.grams_per_litre:
        return Compared(titrated, ())
    return Compared(
        titrated, (TOO_HEAVY if floated.grams_per_litre > titrated.grams_per_litre else TOO_LIGHT,)
    )
