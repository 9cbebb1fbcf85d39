"""What the density of a silver nitrate solution says of its strength, and the other way round.

The table is for 20 °C. Between its rows the room that a gram takes is interpolated, in which the published column is
almost straight. Away from 20 °C it is shifted by a fixed expansion, good for a few degrees only: 15 to 25 °C are taken.
"""

from bisect import bisect_left
from fractions import Fraction

from plates.chemistry.bath.strength import Strength
from plates.chemistry.sentences import Sentence
from plates.chemistry.values import ChemistryValueError, Exact, Source, exact, figures

ANCHORS = Source(
    "CRC Handbook, concentrative properties of aqueous solutions, as reprinted: 0, 1, 5, 10, 20 and 30 %",
    "A",
)
BETWEEN = Source("the other rows: interpolated between those by the room that a gram takes", "C")
EXPANSION = Source("0.0003 g/mL a degree from 15 to 25 °C, an approximation", "E")

# Per cent by weight (w/w), g/mL at 20 °C.
TABLE: tuple[tuple[Fraction, Fraction], ...] = tuple(
    (Fraction(per_cent), Fraction(density))
    for per_cent, density in (
        (0, "0.99821"),
        (1, "1.0070"),
        (2, "1.0153"),
        (3, "1.0240"),
        (4, "1.0328"),
        (5, "1.0417"),
        (6, "1.0507"),
        (7, "1.0599"),
        (8, "1.0692"),
        (9, "1.0786"),
        (10, "1.0882"),
        (12, "1.1078"),
        (14, "1.1282"),
        (20, "1.1942"),
        (30, "1.3204"),
    )
)
_SHARES = tuple(share for share, _ in TABLE)
_DENSITIES = tuple(density for _, density in TABLE)
_STRENGTHS = tuple(share * density * 10 for share, density in TABLE)
# mL that a gram takes, and by how much less a gram takes for each per cent, from the row before.
_ROOM = tuple(1 / density for density in _DENSITIES)
_NARROWING = (
    Fraction(0),
    *((_ROOM[row] - _ROOM[row + 1]) / (_SHARES[row + 1] - _SHARES[row]) for row in range(len(TABLE) - 1)),
)
WATER = TABLE[0][1]
STRONGEST_PER_CENT = TABLE[-1][0]
STRONGEST = _STRENGTHS[-1]
A_DEGREE = Fraction("0.0003")
COOLEST, WARMEST = 15, 25


def density(per_cent_w_w: Exact, celsius: Exact = 20) -> Fraction:
    """g/mL of a solution of so many per cent by weight (0 to 30), 15 to 25 °C. Raises ChemistryValueError."""
    share = exact("Per cent by weight (w/w)", per_cent_w_w, least=0, most=STRONGEST_PER_CENT)
    row = max(bisect_left(_SHARES, share), 1)
    return 1 / (_ROOM[row - 1] - _NARROWING[row] * (share - _SHARES[row - 1])) - _warmth(celsius)


def per_cent_of(grams_per_ml: Exact, celsius: Exact = 20) -> Fraction:
    """Per cent by weight (w/w) of a solution of this density at that warmth. Raises ChemistryValueError."""
    at_20 = exact("The density in g/mL", grams_per_ml, above=0) + _warmth(celsius)
    if not TABLE[0][1] <= at_20 <= TABLE[-1][1]:
        raise ChemistryValueError(
            Sentence(
                "A density of {found} g/mL at 20 °C is none of a silver nitrate solution up to {most} %: it lies"
                " outside {least} to {greatest}.",
                found=figures(at_20, 4),
                most=str(STRONGEST_PER_CENT),
                least=figures(WATER, 4),
                greatest=figures(TABLE[-1][1], 4),
            )
        )
    row = max(bisect_left(_DENSITIES, at_20), 1)
    return _SHARES[row - 1] + (_ROOM[row - 1] - 1 / at_20) / _NARROWING[row]


def strength_of(grams_per_ml: Exact, celsius: Exact = 20) -> Strength:
    """The strength of a solution of this density at that warmth, per litre at 20 °C. Raises ChemistryValueError."""
    share = per_cent_of(grams_per_ml, celsius)
    return Strength(share * density(share) * 10)


def per_cent_w_w(strength: Strength) -> Fraction:
    """Per cent by weight of a solution of that strength at 20 °C. Raises ChemistryValueError above 396 g/L."""
    wanted = exact("The strength in g/L", strength.grams_per_litre, most=STRONGEST)
    row = max(bisect_left(_STRENGTHS, wanted), 1)
    # Within a row strength = 10 share / (room - narrowing (share - low)), so share follows by plain division.
    narrowing = _NARROWING[row]
    return wanted * (_ROOM[row - 1] + narrowing * _SHARES[row - 1]) / (10 + wanted * narrowing)


def _warmth(celsius: Exact) -> Fraction:
    return (exact("The temperature in °C", celsius, least=COOLEST, most=WARMEST) - 20) * A_DEGREE
