"""Collodions as the period books print them. Ether, alcohol and guncotton burn and explode: see the hazards of each."""

from fractions import Fraction

from plates.chemistry.recipes.scaling import Ingredient, Recipe, line
from plates.chemistry.values import Source

COLLODIONS = (
    Recipe(
        "iodised_estabrooke_29",
        "Iodised collodion, 15 ounces and 5 of iodiser",
        "collodion",
        (
            line("cotton", 100, "grain", "nitrocellulose"),
            line("ether", 10, "us_ounce", "ether"),
            line("alcohol", 5, "us_ounce", "ethanol"),
            line("alcohol for the iodiser", 5, "us_ounce", "ethanol"),
            line("ammonium iodide", 60, "grain", "ammonium_iodide"),
            line("cadmium iodide", 30, "grain", "cadmium_iodide"),
            line("cadmium bromide", 20, "grain", "cadmium_bromide"),
        ),
        Source("E. M. Estabrooke, Photography in the Studio and in the Field, New York 1887, p. 29", "A"),
        notes=(
            "Another book (Workshop Receipts, 4) prints these salts for one pint, with alcohol 10 and ether 5 ounces.",
        ),
    ),
    Recipe(
        "iodised_estabrooke_27",
        "Iodised collodion, half a gallon",
        "collodion",
        (
            line("ether", 32, "us_ounce", "ether"),
            line("alcohol", 32, "us_ounce", "ethanol"),
            line("cotton", 320, "grain", "nitrocellulose"),
            line("ammonium iodide", 192, "grain", "ammonium_iodide"),
            line("cadmium bromide", 128, "grain", "cadmium_bromide"),
            line("potassium bromide", 96, "grain", "potassium_bromide"),
        ),
        Source("E. M. Estabrooke, Photography in the Studio and in the Field, New York 1887, p. 27", "A"),
    ),
    Recipe(
        "ferrotype_estabrooke_16",
        "Positive (ferrotype) collodion, an ounce",
        "collodion",
        (
            line("ether", Fraction(1, 2), "us_ounce", "ether"),
            line("alcohol", Fraction(1, 2), "us_ounce", "ethanol"),
            line("cotton", 5, "grain", "nitrocellulose", most=6),
            line("ammonium iodide", 4, "grain", "ammonium_iodide"),
            line("cadmium iodide", 2, "grain", "cadmium_iodide"),
            line("cadmium bromide", 1, "grain", "cadmium_bromide"),
            line("copper bromide", 1, "grain"),
        ),
        Source("E. M. Estabrooke, Photography in the Studio and in the Field, New York 1887, pp. 16-17", "A"),
        notes=("Printed for a bath of 50 grains to the ounce.",),
    ),
    Recipe(
        "metric_fritz",
        "Collodion by metric measure",
        "collodion",
        (
            line("ether", 1000, "ml", "ether"),
            line("absolute alcohol", 1000, "ml", "ethanol"),
            line("pyroxylin", 40, "g", "nitrocellulose"),
            line("sodium iodide", 15, "g"),
            line("cadmium iodide", 15, "g", "cadmium_iodide"),
            line("cadmium bromide", 8, "g", "cadmium_bromide"),
            line("potassium iodide", 1, "g", "potassium_iodide"),
        ),
        Source("G. Fritz, Photo-Lithography, English edition", "A"),
    ),
    Recipe(
        "ferrotype_practical_1005",
        "Ferrotype collodion",
        "collodion",
        (
            line("ether", 20, "us_ounce", "ether"),
            Ingredient("alcohol", None, substance="ethanol"),
            line("cotton", 200, "grain", "nitrocellulose"),
            line("cadmium bromide", 100, "grain", "cadmium_bromide"),
            line("cadmium iodide", 80, "grain", "cadmium_iodide"),
            line("ammonium iodide", 120, "grain", "ammonium_iodide"),
        ),
        Source("Practical Photography, about 1908, s. 1005", "A"),
        notes=(
            "The line for the alcohol is lost in the text that was read; as much as ether would be usual.",
        ),
    ),
)
