"""Baths, developers, fixers and varnishes as the period books print them."""

from fractions import Fraction

from plates.chemistry.quantities import quantity
from plates.chemistry.recipes.scaling import Ingredient, Recipe, line
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
            line("silver nitrate", 240, "grain", "silver_nitrate"),
            line("potassium iodide", 1, "grain", "potassium_iodide"),
            line("water", 8, "imperial_ounce", "water"),
        ),
        Source("Wall, The Dictionary of Photography, edition of about 1902, p. 751 of the e-text", "A"),
    ),
    Recipe(
        "developer_towler",
        "Iron developer No. 1, for ambrotypes and melainotypes",
        "developer",
        (
            line("iron protosulphate", 3, "drachm", "iron_sulfate"),
            line("rain-water", 4, "us_ounce", "water"),
            line("acetic acid", 3, "us_drachm", "acetic_acid"),
            line("alcohol", 2, "us_drachm", "ethanol"),
        ),
        Source("J. Towler, The Silver Sunbeam, New York 1864, chapter 16", "A"),
        notes=(STRENGTH_NOT_SAID, "Drachms of the solid are read as 60 grains, of liquids as fluid drachms."),
    ),
    Recipe(
        "developer_fritz",
        "Iron and copper developer by metric measure",
        "developer",
        (
            line("water", 4000, "ml", "water"),
            line("ferrous sulphate", 150, "g", "iron_sulfate"),
            line("copper sulphate", 75, "g"),
            line("alcohol, 40 per cent", 250, "ml", "ethanol"),
            line("glacial acetic acid", 125, "ml", "acetic_acid"),
        ),
        Source("G. Fritz, Photo-Lithography, English edition", "A"),
    ),
    Recipe(
        "developer_photo_iron",
        "Developer of saturated iron",
        "developer",
        (
            line("saturated ferrous sulphate", 5, "imperial_ounce", "iron_sulfate"),
            line("glacial acetic acid", 2, "imperial_ounce", "acetic_acid"),
            line("alcohol", Fraction(3, 2), "imperial_ounce", "ethanol"),
            line("water", 35, "imperial_ounce", "water"),
        ),
        Source(PHOTO, "A"),
    ),
    Recipe(
        "developer_photo_double",
        "Developer of ferrous ammonium sulphate",
        "developer",
        (
            line("ferrous ammonium sulphate", 150, "grain"),
            line("glacial acetic acid", 150, "imperial_minim", "acetic_acid"),
            line("copper sulphate", 15, "grain"),
            line("alcohol", 1, "imperial_ounce", "ethanol"),
            line("water", 9, "imperial_ounce", "water"),
        ),
        Source(PHOTO, "A"),
    ),
    Recipe(
        "developer_wilkinson",
        "Iron developer in parts, its alcohol rising as the bath ages",
        "developer",
        (
            line("saturated iron", 10, "part", "iron_sulfate"),
            line("acetic acid", 4, "part", "acetic_acid"),
            line("water", 70, "part", "water"),
            line("alcohol", 1, "part", "ethanol", most=5),
        ),
        Source("W. T. Wilkinson, Photo-engraving, Photo-etching and Photo-lithography, pp. 11-17", "A"),
        notes=(STRENGTH_NOT_SAID,),
    ),
    Recipe(
        "fixer_hunt",
        "Fixer of hypo, a pint",
        "fixer",
        (line("hypo", 4, "avoirdupois_ounce", "sodium_thiosulfate"), WATER_UP),
        Source("R. Hunt, A Manual of Photography, The Collodion Process, e-text", "A"),
        makes=quantity(1, "imperial_pint"),
    ),
    Recipe(
        "fixer_photo_cyanide",
        "Fixer of potassium cyanide, 10 per cent",
        "fixer",
        (line("potassium cyanide", 100, "g", "potassium_cyanide"), WATER_UP),
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
            line("sandarac", 1, "avoirdupois_ounce", "sandarac"),
            line("orange shellac", Fraction(1, 2), "avoirdupois_ounce"),
            line("castor oil", 90, "us_minim"),
            line("methyl alcohol", 1, "us_pint", "methanol"),
        ),
        Source("Henley's Twentieth Century Formulas, e-text", "A"),
        notes=("Methyl alcohol poisons through skin and lungs: take ethanol instead.",),
    ),
    Recipe(
        "varnish_sandarac_lavender",
        "Sandarac and lavender varnish",
        "varnish",
        (
            line("ethanol", 220, "ml", "ethanol"),
            line("sandarac", 32, "g", "sandarac"),
            line("lavender oil", 28, "ml", "lavender_oil"),
        ),
        Source("a practitioner's blog of 2007", "B"),
        notes=("Printed with 3 mL of chloroform if wished; it is left out.",),
    ),
)
