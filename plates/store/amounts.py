"""Amounts as people type and read them, and as whole numbers of a small unit in rows: nothing is rounded going in."""

from decimal import Decimal
from fractions import Fraction

from plates.chemistry.values import figures

# Small units in the one that is typed.
A_TYPED = {"mg": 1000, "ul": 1000, "piece": 1}
SHOWN = {"mg": "g", "ul": "mL", "piece": ""}
PLACES = {"mg": 3, "ul": 3, "piece": 0}


def small(value: Decimal, unit: str) -> int:
    """Grams as mg, millilitres as µL, pieces as they are. ValueError for what is no whole number of those."""
    whole = value * A_TYPED[unit]
    if whole != whole.to_integral_value():
        raise ValueError(f"{value} is no whole number of {unit}.")
    return int(whole)


def typed(value: int, unit: str) -> Decimal:
    """The same the other way: mg as grams, µL as millilitres."""
    return (Decimal(value) / A_TYPED[unit]).normalize()


def format_amount(value: int | Fraction, unit: str) -> str:
    """For people: 1.5 kg is 1500 g here, half a millilitre 0.5 mL; three figures where it is little."""
    amount = Fraction(value) / A_TYPED[unit]
    places = 0 if unit == "piece" or amount >= 100 else 1 if amount >= 10 else 3
    words = figures(amount, places)
    if "." in words:
        words = words.rstrip("0").rstrip(".")
    return f"{words} {SHOWN[unit]}".rstrip()
