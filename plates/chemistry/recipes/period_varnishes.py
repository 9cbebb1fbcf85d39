"""Varnishes as they are printed. All are flowed warm and burn: no flame, hot plate or heater near an open bottle."""

from fractions import Fraction

from plates.chemistry.recipes.scaling import Recipe, take
from plates.chemistry.values import Source

VARNISHES = (
    Recipe(
        "varnish_henley",
        "Sandarac and shellac varnish, a pint of spirit",
        "varnish",
        (
            take("sandarac", 1, "avoirdupois_ounce", "sandarac"),
            take("orange shellac", Fraction(1, 2), "avoirdupois_ounce"),
            take("castor oil", 90, "us_minim"),
            take("methyl alcohol", 1, "us_pint", "methanol"),
        ),
        Source("Henley's Twentieth Century Formulas, e-text", "A"),
        notes=("Methyl alcohol poisons through skin and lungs: take ethanol instead.",),
    ),
    Recipe(
        "varnish_sandarac_lavender",
        "Sandarac and lavender varnish",
        "varnish",
        (
            take("ethanol", 220, "ml", "ethanol"),
            take("sandarac", 32, "g", "sandarac"),
            take("lavender oil", 28, "ml", "lavender_oil"),
        ),
        Source("a practitioner's blog of 2007", "B"),
        notes=("Printed with 3 mL of chloroform if wished; it is left out.",),
    ),
)
