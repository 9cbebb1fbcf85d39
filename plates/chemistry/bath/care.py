"""When a bath is to be strengthened, rested, filtered or left alone: limits that the studio sets itself.

None of the counts is printed anywhere (E); the strengths are common practice (D); print agrees only on testing it often
and on filtering and sunning it.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from plates.chemistry.bath.strength import Strength
from plates.chemistry.sentences import Sentence
from plates.chemistry.values import ChemistryValueError, Exact, exact, figures

Level = Literal["good", "soon", "stop"]

TARGET, WARN, STOP = (Strength(Fraction(grams)) for grams in (90, 80, 70))


@dataclass(frozen=True, slots=True)
class BathLimits:
    """Strengths to aim at, warn below and stop below; pH to stay within; plates (of 129 cm²) between cares."""

    target: Strength = TARGET
    warn_below: Strength = WARN
    stop_below: Strength = STOP
    ph_least: Fraction = Fraction("3.5")
    ph_most: Fraction = Fraction(5)
    plates_to_filter: int = 25
    plates_to_sun: int = 100
    plates_to_test: int = 15

    def __post_init__(self) -> None:
        strengths = [each.grams_per_litre for each in (self.stop_below, self.warn_below, self.target)]
        if strengths != sorted(strengths):
            raise ChemistryValueError(Sentence("Stop must not lie above warn, nor warn above the target."))
        exact("The lower pH", self.ph_least, least=0, most=self.ph_most)
        exact("The upper pH", self.ph_most, most=14)
        for name in ("plates_to_filter", "plates_to_sun", "plates_to_test"):
            exact(f"The count {name}", getattr(self, name), least=1)


@dataclass(frozen=True, slots=True)
class Care:
    """One thing to do about a bath, and whether it may be used before."""

    level: Level
    sentence: Sentence


USUAL = BathLimits()


def by_strength(strength: Strength, limits: BathLimits = USUAL) -> Care:
    """Whether the bath is strong enough to go on with."""
    held = f"{figures(strength.grams_per_litre, 1)} g/L"
    if strength.grams_per_litre < limits.stop_below.grams_per_litre:
        return Care(
            "stop", Sentence("The bath holds {held}: strengthen it before the next plate.", held=held)
        )
    if strength.grams_per_litre < limits.warn_below.grams_per_litre:
        return Care("soon", Sentence("The bath holds {held}: strengthen it after this sitting.", held=held))
    return Care("good", Sentence("The bath holds {held}.", held=held))


def by_acidity(ph: Exact, limits: BathLimits = USUAL) -> Care:
    """Whether the bath is acid as it should be; litmus says only that it is acid at all."""
    value = exact("The pH", ph, least=0, most=14)
    ph_read = figures(value, 1)
    if value > limits.ph_most:
        return Care(
            "soon",
            Sentence(
                "At pH {ph} the bath is hardly acid, and plates may fog: add dilute acid drop by drop.",
                ph=ph_read,
            ),
        )
    if value < limits.ph_least:
        return Care(
            "soon",
            Sentence(
                "At pH {ph} the bath is too acid and slow: take it back with a little bicarbonate.",
                ph=ph_read,
            ),
        )
    return Care("good", Sentence("pH {ph} is as it should be.", ph=ph_read))


def by_plates(
    *, since_filtered: Exact, since_sunned: Exact, since_tested: Exact, limits: BathLimits = USUAL
) -> tuple[Care, ...]:
    """What is due by the plates made since it was last done, counted as plates of 129 cm²; at most three."""
    counts = (
        (since_tested, limits.plates_to_test, Sentence("Test its strength")),
        (since_filtered, limits.plates_to_filter, Sentence("Filter it")),
        (
            since_sunned,
            limits.plates_to_sun,
            Sentence("Rest it in strong light, and work with the other bath"),
        ),
    )
    return tuple(
        Care("soon", _due(deed, made, most))
        for since, most, deed in counts
        if (made := exact("Plates made", since, least=0)) >= most
    )


def _due(deed: Sentence, made: Fraction, most: int) -> Sentence:
    return Sentence(
        "{deed}: {made} plates since it was done, {most} is the limit.",
        deed=deed,
        made=figures(made, 0),
        most=str(most),
    )
