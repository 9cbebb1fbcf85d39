"""What a reading of a bath says: its strength, and what to make of it."""

from dataclasses import dataclass
from fractions import Fraction

from plates.chemistry.bath import titration
from plates.chemistry.bath.dosing import Addition, Bath, make_up, strengthen, strengthen_with_stock, weaken
from plates.chemistry.bath.hydrometer import FloatReading, Scale, read_argentometer, read_hydrometer
from plates.chemistry.bath.strength import Strength
from plates.chemistry.sentences import Sentence
from plates.chemistry.units import UNITS
from plates.chemistry.values import ChemistryValueError
from plates.common.words import translated
from plates.store.models import BathReading


@dataclass(frozen=True, slots=True)
class Reading:
    """A reading with the strength to go by (None where none was measured) and what to make of it."""

    reading: BathReading
    strength: Strength | None
    warnings: tuple[Sentence, ...]
    # What the book of the bath said just before; None where it was not known, or nothing was measured.
    said: Strength | None = None


def reading_of(row: BathReading, plates: int) -> Reading:
    """The strength to go by: titrated before floated, hydrometer before argentometer.

    `plates`: how many went through before, which make a float mislead. Raises ChemistryValueError.
    """
    floated, titrated = _floated(row, plates), _titrated(row)
    if titrated and floated:
        compared = titration.compare(floated.strength, titrated)
        return Reading(row, compared.strength, compared.warnings)
    if titrated:
        return Reading(row, titrated, ())
    return Reading(row, floated.strength, floated.warnings) if floated else Reading(row, None, ())


def _floated(row: BathReading, plates: int) -> FloatReading | None:
    if row.gravity_e4 is not None and row.celsius_tenths is not None:
        scale: Scale = row.scale  # type: ignore[assignment]  # one of BathReading.Scale, which are the scales
        celsius = Fraction(row.celsius_tenths, 10)
        gravity = Fraction(row.gravity_e4, 10_000)
        return read_hydrometer(gravity, scale, celsius=celsius, plates_since_made=plates)
    if row.grains_tenths is not None:
        grains = Fraction(row.grains_tenths, 10)
        return read_argentometer(grains, UNITS[row.ounce], plates_since_made=plates)
    return None


def _titrated(row: BathReading) -> Strength | None:
    if row.titrant_ul is None or row.sample_ul is None or row.titrant_mmol_l is None:
        return None
    return titration.by_thiocyanate(
        used_ml=Fraction(row.titrant_ul, 1000),
        molar=Fraction(row.titrant_mmol_l, 1000),
        sample_ml=Fraction(row.sample_ul, 1000),
    )


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
        refusals.append(translated(refusal))
    if full is not None and full.millilitres > bath.millilitres:
        try:
            filled = make_up(bath, full)
        except ChemistryValueError as refusal:
            refusals.append(translated(refusal))
    return Doses(strengthen(bath, target), poured, None, filled, stock, tuple(refusals))
