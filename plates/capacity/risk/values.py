"""What chance may do to a day, and what it did in the days played. Needs no numpy, so that it can be read anywhere."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt
from statistics import NormalDist

from plates.capacity.scenario.fields import number

# (name, most): every chance is a number from 0 to its most.
MOST = (("retake", 0.95), ("no_show", 1.0), ("spread", 2.0), ("late_sd", 120.0), ("wait_limit", 240.0))
SURE = 0.95


@dataclass(frozen=True, slots=True)
class Chances:
    """The luck of plates, sitters and hands, and how much waiting is allowed.

    retake: chance that a plate has to be made again. no_show: chance that a sitter does not come. spread: standard
    deviation of the minutes of hand work as a share of the planned minutes. late_sd: standard deviation of the
    minutes by which sitters are late or early. wait_limit: a sitter who waits more minutes has waited long.
    chance_limit: no sitter's chance of waiting long may reach this; None for no limit. The values are planning
    values that each studio edits (common practice, no source). CapacityValueError names a value that cannot be.
    """

    retake: float = 0.15
    no_show: float = 0.05
    spread: float = 0.25
    late_sd: float = 4.0
    wait_limit: float = 10.0
    chance_limit: float | None = None

    def __post_init__(self) -> None:
        for name, most in MOST:
            number(name, getattr(self, name), most)
        if self.chance_limit is not None:
            number("chance_limit", self.chance_limit, 1.0)


@dataclass(frozen=True, slots=True)
class Estimate:
    """A chance as counted, and the bound that it lies below with 95 % confidence."""

    chance: float
    upper: float


@dataclass(frozen=True, slots=True)
class SitterRisk:
    """The chance that the sitter promised `start` waits longer than the limit, and the mean wait in minutes.

    Both are of the days on which the sitter came; the wait runs from the promised start, or from when a late sitter
    came, until settling begins.
    """

    start: int
    chance: float
    upper: float
    mean_wait: float


@dataclass(frozen=True, slots=True)
class Risk:
    """What happened in `days` played days: one SitterRisk for each booked sitting, in their order.

    late_close: the last farewell ends after closing. racks: a plate is not racked in time. wet: a plate is not
    developed inside the wet window. long_bath: a plate lies in the bath longer than its most, for want of hands, and
    is made all the same. Each counts the days on which it happened at all. ends, ends_late: the minute by which the
    last sitter has left on half and on 95 % of the days.
    """

    sitters: tuple[SitterRisk, ...]
    late_close: Estimate
    racks: Estimate
    wet: Estimate
    long_bath: Estimate
    ends: float
    ends_late: float
    days: int


def estimated(hits: int, of: int) -> Estimate:
    """The share of `hits`, and its upper bound after Wilson (1927, from memory), one-sided 95 %; none counted: 1."""
    if not of:
        return Estimate(0.0, 1.0)
    z, share = NormalDist().inv_cdf(SURE), hits / of
    middle = share + z * z / (2 * of)
    reach = z * sqrt(share * (1 - share) / of + z * z / (4 * of * of))
    return Estimate(share, min(1.0, (middle + reach) / (1 + z * z / of)))


def objection(risk: Risk, chances: Chances) -> SitterRisk | None:
    """The sitter who would wait long too often by the upper bound, the likeliest of them; None: the day is fine."""
    if chances.chance_limit is None:
        return None
    return _likeliest([each for each in risk.sitters if each.upper >= chances.chance_limit])


def _likeliest(sitters: Sequence[SitterRisk]) -> SitterRisk | None:
    return max(sitters, key=lambda each: each.upper, default=None)
