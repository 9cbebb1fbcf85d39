"""Cyanide is refused unless the studio has switched it on, and away from the studio even then.

Potassium cyanide is in the old books as a fixer. With any acid, and the iron developer is acid, it gives off hydrogen
cyanide, which kills. Sodium thiosulfate does the same work.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from plates.chemistry.sentences import Sentence
from plates.chemistry.values import ChemistryValueError

CYANIDE = "potassium_cyanide"
CYANIDES = frozenset({CYANIDE})
# Their cyanide is bound; they have names of their own in the table of hazards, or none.
BOUND = ("ferricyan", "ferrocyan", "thiocyan", "sulphocyan", "sulfocyan")


class CyanideRefused(ChemistryValueError):
    """Cyanide was asked for where it is not allowed."""


@dataclass(frozen=True, slots=True)
class Cyanide:
    """Whether cyanide may be worked with: only if it was switched on, and never `away` from the studio."""

    switched_on: bool = False
    away: bool = False


FORBIDDEN = Cyanide()


def names_cyanide(name: str) -> bool:
    """Whether words name a cyanide, whatever was chosen from the table beside them."""
    words = name.lower()
    for bound in BOUND:
        words = words.replace(bound, "")
    return "cyanid" in words or "kcn" in words.replace(",", " ").split()


def refuse_cyanide(substances: Iterable[str], allowed: Cyanide) -> None:
    """Raise CyanideRefused if one of these substances is a cyanide and that is not allowed here."""
    if not CYANIDES & frozenset(substances):
        return
    if allowed.away:
        raise CyanideRefused(
            Sentence("Cyanide is never worked with away from the studio: fix with sodium thiosulfate.")
        )
    # Only the very word True is a switch that somebody has set.
    if allowed.switched_on is not True:
        raise CyanideRefused(
            Sentence(
                "Cyanide is switched off: with any acid it gives off a gas that kills. Fix with sodium thiosulfate, or"
                " switch it on in the studio's settings if you hold what your law asks for it."
            )
        )
