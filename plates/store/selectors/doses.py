"""What to add to a bath to bring it to the strength aimed at, by every way there is. Nothing here writes."""

from dataclasses import dataclass

from plates.chemistry.bath.dosing import Addition, Bath, make_up, strengthen, strengthen_with_stock, weaken
from plates.chemistry.bath.strength import Strength
from plates.chemistry.values import ChemistryValueError
from plates.common.words import said


@dataclass(frozen=True, slots=True)
class Doses:
    """Dry salt, stock solution or water; salt and water for the full volume. What cannot be done says why."""

    dry: Addition | None
    stock: Addition | None
    water: Addition | None
    full: Addition | None
    stock_strength: Strength
    refusals: tuple[str, ...] = ()


def doses(*, bath: Bath, target: Strength, stock: Strength, full: Bath | None = None) -> Doses:
    """Every way from the strength of now to the one aimed at."""
    if bath.strength.grams_per_litre > target.grams_per_litre:
        return Doses(None, None, weaken(bath, target), None, stock)
    refusals = []
    poured = filled = None
    try:
        poured = strengthen_with_stock(bath, target, stock)
    except ChemistryValueError as refusal:
        refusals.append(said(refusal))
    if full is not None and full.millilitres > bath.millilitres:
        try:
            filled = make_up(bath, full)
        except ChemistryValueError as refusal:
            refusals.append(said(refusal))
    return Doses(strengthen(bath, target), poured, None, filled, stock, tuple(refusals))
