"""A silver bath: how much it holds, and what brings it to the strength it should have.

Masses are added exactly and the room they take is read from the density table at 20 °C, so what is in the bath
afterwards is what was in it before plus what was added. Only the solutions' own volumes are taken to add up.
"""

from dataclasses import dataclass
from fractions import Fraction

from plates.chemistry.bath.density import WATER, density, per_cent_w_w
from plates.chemistry.bath.strength import Strength
from plates.chemistry.sentences import Sentence
from plates.chemistry.values import ChemistryValueError, Exact, exact, figures

HANDLE = Sentence(
    "Silver nitrate burns eyes and skin and stains: goggles and gloves; keep it from anything that burns."
)


@dataclass(frozen=True, slots=True)
class Bath:
    """So many millilitres of silver nitrate solution of one strength. Raises ChemistryValueError."""

    millilitres: Fraction
    strength: Strength

    def __post_init__(self) -> None:
        if not isinstance(self.millilitres, Fraction) or self.millilitres <= 0:
            raise ChemistryValueError("A bath needs a volume above 0 mL, as a fraction.")

    @property
    def silver_nitrate_grams(self) -> Fraction:
        return self.millilitres * self.strength.grams_per_litre / 1000

    @property
    def grams(self) -> Fraction:
        """What the whole solution weighs, by the density table at 20 °C."""
        return self.millilitres * density(per_cent_w_w(self.strength))


@dataclass(frozen=True, slots=True)
class Addition:
    """What to put into a bath, and the bath it then is."""

    silver_nitrate_grams: Fraction
    stock_ml: Fraction
    water_ml: Fraction
    after: Bath
    caution: Sentence = HANDLE


def bath(millilitres: Exact, strength: Strength) -> Bath:
    return Bath(exact("The volume in mL", millilitres, above=0), strength)


def strengthen(weak: Bath, target: Strength) -> Addition:
    """The dry salt that brings a bath to `target`, its volume let to rise. Raises ChemistryValueError.

    By mass: M (w2 - w1) / (1 - w2) for M grams of bath from a share w1 to a share w2.
    """
    _require_stronger(weak, target)
    share_after = per_cent_w_w(target) / 100
    salt = (share_after * weak.grams - weak.silver_nitrate_grams) / (1 - share_after)
    after = Bath((weak.grams + salt) / density(share_after * 100), target)
    return Addition(salt, Fraction(0), Fraction(0), after)


def strengthen_with_stock(weak: Bath, target: Strength, stock: Strength) -> Addition:
    """The stock solution that brings a bath to `target`: V (c2 - c1) / (cs - c2). Raises ChemistryValueError."""
    _require_stronger(weak, target)
    wanted, held = target.grams_per_litre, weak.strength.grams_per_litre
    if stock.grams_per_litre <= wanted:
        raise ChemistryValueError(
            Sentence(
                "The stock of {stock} g/L must be stronger than the bath is to be: {wanted} g/L.",
                stock=figures(stock.grams_per_litre, 0),
                wanted=figures(wanted, 0),
            )
        )
    poured = weak.millilitres * (wanted - held) / (stock.grams_per_litre - wanted)
    after = Bath(weak.millilitres + poured, target)
    return Addition(Fraction(0), poured, Fraction(0), after)


def weaken(strong: Bath, target: Strength) -> Addition:
    """The distilled water that brings a bath down to `target`: V (c1 - c2) / c2. Raises ChemistryValueError."""
    held, wanted = strong.strength.grams_per_litre, target.grams_per_litre
    if not 0 < wanted <= held:
        raise ChemistryValueError(
            Sentence(
                "Water makes a bath of {held} g/L weaker, never {wanted} g/L.",
                held=figures(held, 1),
                wanted=figures(wanted, 1),
            )
        )
    water = strong.millilitres * (held - wanted) / wanted
    return Addition(Fraction(0), Fraction(0), water, Bath(strong.millilitres + water, target))


def make_up(short: Bath, wanted: Bath) -> Addition:
    """Dry salt and distilled water that make what is left of a bath whole again. Raises ChemistryValueError.

    The salt is V2 c2 - V1 c1, dissolved before water is added to the mark; the water is what the masses leave.
    """
    salt = wanted.silver_nitrate_grams - short.silver_nitrate_grams
    water = (wanted.grams - short.grams - salt) / WATER
    if salt < 0 or water < 0:
        raise ChemistryValueError(
            Sentence(
                "Salt and water cannot make {wanted} mL of that strength from this bath: it already holds too much,"
                " or the salt alone takes more room than is left.",
                wanted=figures(wanted.millilitres, 0),
            )
        )
    return Addition(salt, Fraction(0), water, wanted)


def _require_stronger(weak: Bath, target: Strength) -> None:
    held, wanted = weak.strength.grams_per_litre, target.grams_per_litre
    if wanted < held:
        raise ChemistryValueError(
            Sentence(
                "The bath holds {held} g/L already, more than {wanted} g/L: weaken it with water.",
                held=figures(held, 1),
                wanted=figures(wanted, 1),
            )
        )
