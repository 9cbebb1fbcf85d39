"""What a plate takes of a solution, learned from the studio's own stock-takes.

Between two stock-takes of one bottle so much was used for so many plates. One spill, or one plate left unlogged, must
not be learned, so each rate found is first held to between half and twice the middle one (by area, the table's value
counted among them). Then all are averaged by area, the table's value counting as if PRIOR_CM2 of plate had been made
with it: about twenty quarter plates, which is ours to choose and no one else's.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from plates.chemistry.values import Exact, exact

PRIOR_CM2 = Fraction(1800)
MOST_FROM_THE_MIDDLE = 2


@dataclass(frozen=True, slots=True)
class Between:
    """What was used between two stock-takes, and the area of the plates made meanwhile."""

    used_ml: Fraction
    area_cm2: Fraction

    @property
    def rate(self) -> Fraction:
        return self.used_ml / self.area_cm2


@dataclass(frozen=True, slots=True)
class OwnRate:
    """mL for each cm², and from how much area of the studio's own it was learned."""

    ml_a_cm2: Fraction
    learned_from_cm2: Fraction


def own_rate(table: Exact, found: Sequence[Between], *, prior_cm2: Fraction = PRIOR_CM2) -> OwnRate:
    """The rate to reckon with: the table's where nothing was found, and more and more the studio's own.

    Stock-takes that found no less than before, or between which no plate was made, teach nothing and are left out.
    Raises ChemistryValueError.
    """
    given = exact("The rate of the table", table, above=0)
    taught = [each for each in found if each.area_cm2 > 0 and each.used_ml > 0]
    known = [(given, exact("The weight of the table's value", prior_cm2, above=0))]
    middle = _middle([*known, *((each.rate, each.area_cm2) for each in taught)])
    least, most = middle / MOST_FROM_THE_MIDDLE, middle * MOST_FROM_THE_MIDDLE
    held = [*known, *((min(max(each.rate, least), most), each.area_cm2) for each in taught)]
    area = sum((weight for _, weight in held), Fraction(0))
    mean = sum((rate * weight for rate, weight in held), Fraction(0)) / area
    return OwnRate(mean, area - known[0][1])


def _middle(weighted: Sequence[tuple[Fraction, Fraction]]) -> Fraction:
    """The lowest rate up to which at least half of the area lies."""
    half = sum((weight for _, weight in weighted), Fraction(0)) / 2
    reached = Fraction(0)
    for rate, weight in sorted(weighted):
        reached += weight
        if reached >= half:
            return rate
    raise AssertionError("there is always the table's value")
