"""How much of each solution a plate takes by its area, and when a fixer has done its work.

Starting values only: few of them are printed, and every one is for the studio to replace by its own. What is poured
over the plate and caught again is not counted as used.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from plates.chemistry.sentences import Sentence
from plates.chemistry.values import ChemistryValueError, Exact, Source, exact, figures

Solution = Literal["collodion", "developer", "varnish"]


@dataclass(frozen=True, slots=True)
class Rate:
    """mL used for each cm² of plate: at least, usually, at most."""

    least: Fraction
    usual: Fraction
    most: Fraction
    source: Source

    def __post_init__(self) -> None:
        exact("The least rate", self.least, above=0)
        exact("The usual rate", self.usual, least=self.least, most=self.most)
        exact("The greatest rate", self.most, most=10)


RATES: Mapping[Solution, Rate] = {
    "collodion": Rate(
        Fraction("0.02"),
        Fraction("0.03"),
        Fraction("0.05"),
        Source("what stays on the plate; no source", "E"),
    ),
    "developer": Rate(
        Fraction("0.15"),
        Fraction("0.22"),
        Fraction("0.3"),
        Source(
            "Practical Photography, s. 915, three to five ounces a plate; its size not printed, 8×10 supposed",
            "C",
        ),
    ),
    "varnish": Rate(
        Fraction("0.015"),
        Fraction("0.02"),
        Fraction("0.03"),
        Source("what stays on the plate; no source", "E"),
    ),
}

FIXER_CM2_A_LITRE = 10_000
FIXER_SOURCE = Source(
    "Darkroom Cookbook, 3rd edition, p. 108: 20 sheets of 8×10 a litre of acid fixer, for film and paper;"
    " none for collodion was found",
    "B",
)
# The same page: an exhausted fixer takes twice as long to clear as it did when fresh (B).
EXHAUSTED_BY = 2
RUNNING_WASH = Rate(Fraction(2), Fraction(3), Fraction(4), Source("litres a minute, running; no source", "E"))


def used_ml(
    solution: Solution, areas_cm2: Iterable[Exact], rates: Mapping[Solution, Rate] = RATES
) -> Fraction:
    """mL of a solution that plates of these areas usually take. Raises ChemistryValueError."""
    if solution not in rates:
        raise ChemistryValueError(f"There is no rate for {solution!r}: one of {', '.join(rates)} was wanted.")
    return (
        sum((exact("The area in cm²", area, above=0) for area in areas_cm2), Fraction(0))
        * rates[solution].usual
    )


@dataclass(frozen=True, slots=True)
class Fixer:
    """A fixer in use: its volume, the plates it has fixed, and what the clearing of a plate took in seconds."""

    millilitres: Fraction
    fixed_cm2: Fraction = Fraction(0)
    clears_fresh: Fraction | None = None
    clears_now: Fraction | None = None
    cm2_a_litre: Fraction = Fraction(FIXER_CM2_A_LITRE)

    def __post_init__(self) -> None:
        exact("The volume in mL", self.millilitres, above=0)
        exact("The area fixed in cm²", self.fixed_cm2, least=0)
        exact("The area that a litre fixes in cm²", self.cm2_a_litre, above=0)
        for seconds in (self.clears_fresh, self.clears_now):
            if seconds is not None:
                exact("The clearing time in seconds", seconds, above=0)

    @property
    def left_cm2(self) -> Fraction:
        """cm² of plate that it still fixes by area, never below 0."""
        return max(self.millilitres * self.cm2_a_litre / 1000 - self.fixed_cm2, Fraction(0))

    @property
    def spent(self) -> Sentence | None:
        """Why it is to be made anew, if it is; the clearing time tells before the area does, or after it."""
        fresh, now = self.clears_fresh, self.clears_now
        if fresh is not None and now is not None and now >= EXHAUSTED_BY * fresh:
            return Sentence(
                "A plate clears in {seconds} s, twice as long as when it was fresh: make new fixer.",
                seconds=figures(now, 0),
            )
        if not self.left_cm2:
            return Sentence(
                "It has fixed {area} cm² of plate, all that it is good for: make new fixer.",
                area=figures(self.fixed_cm2, 0),
            )
        return None
