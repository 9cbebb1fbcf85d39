"""What finishing is worked out from. Times are whole minutes from an origin that the calendar chooses."""

from dataclasses import dataclass


class FinishingError(ValueError):
    """Numbers by which no plate could be finished, as a sentence."""


@dataclass(frozen=True, slots=True)
class Spread:
    """How many minutes something takes: at least, mostly, at most (a triangular distribution).

    FinishingError when they are not in that order or less than nothing.
    """

    least: int
    usual: int
    most: int

    def __post_init__(self) -> None:
        if not 0 <= self.least <= self.usual <= self.most:
            raise FinishingError(
                "The shortest time cannot be longer than the usual one, nor that than the longest."
            )


@dataclass(frozen=True, slots=True)
class Session:
    """A time of varnishing: plates that are dry when it begins can be taken, so many at most; all cure from its end."""

    begins: int
    ends: int
    plates: int

    def __post_init__(self) -> None:
        if self.ends < self.begins or self.plates < 0:
            raise FinishingError("A varnish session ends after it begins, and takes no fewer than 0 plates.")


@dataclass(frozen=True, slots=True)
class Work:
    """How long plates dry before varnish and cure after it, and how sure a promised date is to be (0 to 1)."""

    drying: Spread
    curing: Spread
    certainty: float

    def __post_init__(self) -> None:
        if not 0 < self.certainty < 1:
            raise FinishingError("A date is kept with a certainty above 0 and below 100 %.")


@dataclass(frozen=True, slots=True)
class Lying:
    """A plate on its way: the minute it comes to lie on the rack, or `varnished` if it has been. `key` tells its luck.

    The same key has the same luck in every outlook, so that two of them differ only by what is really different.
    """

    key: int
    racked: int
    varnished: int | None = None
