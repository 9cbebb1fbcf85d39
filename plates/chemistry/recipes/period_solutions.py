"""Baths, developers, fixers and varnishes as the period books print them."""

from fractions import Fraction

from plates.chemistry.quantities import quantity
from plates.chemistry.recipes.scaling import Ingredient, Recipe, take
from plates.chemistry.values import Source

WATER_UP = Ingredient("water to make up", None, makes_up=True, substance="water")
STRENGTH_NOT_SAID = "The strength of the acetic acid is not said; do not take glacial acid for it unread."
PHOTO = "Photo..., The Wet Plate Process (continued), e-text"

SOLUTIONS = (
    Recipe(
        "bath_wall",
        "Silver bath of 30 grains to the ounce",
        "bath",
        (
            take("silver nitrate", 240, "grain", "silver_nitrate"),
            take("potassium iodide", 1, "grain", "potassium_iodide"),
            take("water", 8, "imperial_ounce", "water"),
        ),
        Source("Wall, The Dictionary of Photography, edition of about 1902, p. 751 of the e-text", "A"),
    ),
    Recipe(
        "developer_towler",
        "Iron developer No. 1, for ambrotypes and melainotypes",
        "developer",
        (
            take("iron protosulphate", 3, "drachm", "iron_sulfate"),
            take("rain-water", 4, "us_ounce", "water"),
            take("acetic acid", 3, "us_drachm", "acetic_acid"),
            take("alcohol", 2, "us_drachm", "ethanol"),
        ),
        Source("J. Towler, The Silver Sunbeam, New York 1864, chapter 16", "A"),
        notes=(STRENGTH_NOT_SAID, "Drachms of the solid are read as 60 grains, of liquids as fluid drachms."),
    ),
    Recipe(
        "developer_fritz",
        "Iron and copper developer by metric measure",
        "developer",
        (
            take("water", 4000, "ml", "water"),
            take("ferrous sulphate", 150, "g", "iron_sulfate"),
            take("copper sulphate", 75, "g"),
            take("alcohol, 40 per cent", 250, "ml", "ethanol"),
            take("glacial acetic acid", 125, "ml", "acetic_acid"),
        ),
        Source("G. Fritz, Photo-Lithography, English edition", "A"),
    ),
    Recipe(
        "developer_photo_iron",
        "Developer of saturated iron",
        "developer",
        (
            take("saturated ferrous sulphate", 5, "imperial_ounce", "iron_sulfate"),
            take("glacial acetic acid", 2, "imperial_ounce", "acetic_acid"),
            take("alcohol", Fraction(3, 2), "imperial_ounce", "ethanol"),
            take("water", 35, "imperial_ounce", "water"),
        ),
        Source(PHOTO, "A"),
    ),
    Recipe(
        "developer_photo_double",
        "Developer of ferrous ammonium sulphate",
        "developer",
        (
            take("ferrous ammonium sulphate", 150, "grain"),
            take("glacial acetic acid", 150, "imperial_minim", "acetic_acid"),
            take("copper sulphate", 15, "grain"),
            take("alcohol", 1, "imperial_ounce", "ethanol"),
            take("water", 9, "imperial_ounce", "water"),
        ),
        Source(PHOTO, "A"),
    ),
    Recipe(
        "developer_wilkinson",
        "Iron developer in parts, its alcohol rising as the bath ages",
        "developer",
        (
            take("saturated iron", 10, "part", "iron_sulfate"),
            take("acetic acid", 4, "part", "acetic_acid"),
            take("water", 70, "part", "water"),
            take("alcohol", 1, "part", "ethanol", most=5),
        ),
        Source("W. T. Wilkinson, Photo-engraving, Photo-etching and Photo-lithography, pp. 11-17", "A"),
        notes=(STRENGTH_NOT_SAID,),
    ),
    Recipe(
        "fixer_hunt",
        "Fixer of hypo, a pint",
        "fixer",
        (take("hypo", 4, "avoirdupois_ounce", "sodium_thiosulfate"), WATER_UP),
        Source("R. Hunt, A Manual of Photography, The Collodion Process, e-text", "A"),
        makes=quantity(1, "imperial_pint"),
    ),
    Recipe(
        "fixer_photo_cyanide",
        "Fixer of potassium cyanide, 10 per cent",
        "fixer",
        (take("potassium cyanide", 100, "g", "potassium_cyanide"), WATER_UP),
        Source(PHOTO, "A"),
        makes=quantity(1, "l"),
        notes=("History only: deadly poison, and with acid a deadly gas. Fix with hypo.",),
    ),
)


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
