"""Misprints: metric amounts printed beside the old ones that are not the same. One unit must be the authority."""

from dataclasses import dataclass
from fractions import Fraction

from plates.chemistry.quantities import Quantity, quantity
from plates.chemistry.values import ChemistryValueError, Source


@dataclass(frozen=True, slots=True)
class Twin:
    """What a book prints for one solid in one volume, in old measure and in metric as if it were the same."""

    substance: str
    old: Quantity
    old_volume: Quantity
    metric: Quantity
    metric_volume: Quantity
    source: Source

    def __post_init__(self) -> None:
        if not (self.old.amount and self.old_volume.amount and self.metric_volume.amount):
            raise ChemistryValueError(f"The amounts printed for {self.substance} must be above 0.")

    @property
    def exact(self) -> Fraction:
        """g/L by the old measure."""
        return self.old.metric / self.old_volume.metric * 1000

    @property
    def printed(self) -> Fraction:
        """g/L by the metric one."""
        return self.metric.metric / self.metric_volume.metric * 1000

    @property
    def off(self) -> Fraction:
        """How far the metric twin is off, of the exact value; below 0 when it is too little."""
        return (self.printed - self.exact) / self.exact


SCANNED = "In scanned books a quarter of an ounce often reads as 14 ounces: 1/4 has lost its stroke."

_TWENTY = quantity(20, "imperial_ounce")

TWINS = (
    Twin(
        "hypo", quantity(4, "avoirdupois_ounce"), _TWENTY, quantity(100, "g"), quantity(500, "ml"),
        Source("a handbook of the period", "A"),
    ),
    Twin(
        "metabisulphite", quantity(200, "grain"), _TWENTY, quantity(13, "g"), quantity(500, "ml"),
        Source("the same handbook", "A"),
    ),
    Twin(
        "a salt of 600 grains", quantity(600, "grain"), _TWENTY, quantity(60, "g"), quantity(1, "l"),
        Source("another handbook of the period", "A"),
    ),
)  # fmt: skip
