"""A scaled recipe told in the measures that stand in the darkroom: metric, or grains, drachms and ounces.

Ounces are always said to be US, imperial or apothecaries ones. What would round to nothing is told in full: a trace
must never read as nothing.
"""

from typing import Literal

from plates.chemistry.quantities import APOTHECARIES, IMPERIAL, US, Quantity, in_measures, in_words
from plates.chemistry.recipes.scaling import Ingredient
from plates.chemistry.units import GRAM, MILLILITRE

System = Literal["metric", "US", "imperial"]


def amount_words(taken: Quantity, system: System) -> str:
    """One quantity in words, for example "2 US fluid ounces 3 US fluid drachms"."""
    if system == "metric":
        return str(taken.to(GRAM if taken.unit.measures == "mass" else MILLILITRE))
    measures = APOTHECARIES if taken.unit.measures == "mass" else US if system == "US" else IMPERIAL
    parts = in_measures(taken, measures)
    return in_words(parts) if any(each.amount for each in parts) else str(taken.to(measures[-1]))


def amount_of(line: Ingredient, system: System) -> str:
    """How much of one ingredient to take, with its range where one is printed."""
    if line.quantity is None:
        return "up to the mark" if line.makes_up else "not known"
    words = amount_words(line.quantity, system)
    return f"{words} to {amount_words(line.most, system)}" if line.most else words


def as_printed(line: Ingredient) -> str:
    """The amount of one ingredient as the recipe has it."""
    if line.quantity is None:
        return "up to the mark" if line.makes_up else "not known"
    return f"{line.quantity} to {line.most}" if line.most else str(line.quantity)
