"""How much plate a bath still takes before it is too weak, or before it is to be rested in light.

It is told as area, so that it can be laid against what is booked.

Each step is one plate of 129 cm², the area that the limits count in; the bath is rounded down to a millionth after
each, so that the fractions stay short and the answer errs on the weak side.
"""

from fractions import Fraction
from functools import lru_cache

from plates.chemistry.bath.care import USUAL, BathLimits
from plates.chemistry.bath.dosing import Bath
from plates.chemistry.bath.drag_out import USUAL as USUAL_RATES
from plates.chemistry.bath.drag_out import CarryOff, after_plates
from plates.chemistry.bath.strength import Strength
from plates.chemistry.values import ChemistryValueError, Exact, exact

PLATE_CM2 = 129
MOST_PLATES = 1000
MILLIONTH = Fraction(1, 1_000_000)


@lru_cache(maxsize=64)
def cm2_until_weak(bath: Bath, limits: BathLimits = USUAL, rates: CarryOff = USUAL_RATES) -> int | None:
    """Whole cm² that the bath takes before it falls below the strength to stop at; None: MOST_PLATES and more."""
    for plates in range(MOST_PLATES):
        if bath.strength.grams_per_litre < limits.stop_below.grams_per_litre:
            return max(0, plates - 1) * PLATE_CM2
        try:
            bath = _rounded(after_plates(bath, [PLATE_CM2], rates))
        except ChemistryValueError:
            return plates * PLATE_CM2
    return None


def cm2_until_rest(sunned_ago_cm2: Exact, limits: BathLimits = USUAL) -> int:
    """Whole cm² of plate until the bath is to be rested in light, from the area made since it last was."""
    made = exact("The area made since", sunned_ago_cm2, least=0)
    return max(0, int(limits.plates_to_sun * PLATE_CM2 - made))


def _rounded(bath: Bath) -> Bath:
    volume = bath.millilitres // MILLIONTH * MILLIONTH
    strength = bath.strength.grams_per_litre // MILLIONTH * MILLIONTH
    if volume <= 0 or strength <= 0:
        raise ChemistryValueError("Nothing is left of this bath.")
    return Bath(volume, Strength(strength))
