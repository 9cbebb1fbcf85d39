"""From when a batch is ripe, until when it is at its best, and when opened ether must be tested or thrown away.

Print disagrees on nearly all of it, so every figure is the studio's to change.
"""

import calendar
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from plates.chemistry.values import ChemistryValueError, Source, exact

Condition = Literal["ripening", "ready", "past its best"]


@dataclass(frozen=True, slots=True)
class Keeping:
    """Days after mixing from which a solution is ripe, and months or days for which it is at its best."""

    ripe_after_days: int
    best_for_days: int
    source: Source

    def __post_init__(self) -> None:
        exact("Days to ripen", self.ripe_after_days, least=0)
        exact("Days at its best", self.best_for_days, least=self.ripe_after_days + 1)


KEEPING: Mapping[str, Keeping] = {
    # Wilkinson: a week, better up to six months. Others: some days; a few hours.
    "collodion": Keeping(7, 182, Source("Wilkinson, p. 14; other books say some days, or a few hours", "A")),
    "developer": Keeping(0, 14, Source("best when fresh is printed; 14 days (7 to 30) from memory", "E")),
    "fixer": Keeping(0, 60, Source("Darkroom Cookbook, 3rd edition, p. 108: two months at most", "B")),
    "varnish": Keeping(0, 365, Source("sandarac varnish, sealed; from memory", "E")),
}


@dataclass(frozen=True, slots=True)
class Batch:
    """A batch and the dates that follow from the day it was mixed."""

    mixed_on: date
    keeping: Keeping

    @property
    def ripe_from(self) -> date:
        return self.mixed_on + timedelta(days=self.keeping.ripe_after_days)

    @property
    def best_before(self) -> date:
        """The first day on which it is past its best."""
        return self.mixed_on + timedelta(days=self.keeping.best_for_days)

    def condition(self, on: date) -> Condition:
        """How it stands on that day. Raises ChemistryValueError for a day before it was mixed."""
        if on < self.mixed_on:
            raise ChemistryValueError(f"The batch was mixed on {self.mixed_on}, after {on}.")
        if on < self.ripe_from:
            return "ripening"
        return "ready" if on < self.best_before else "past its best"


def months_later(day: date, months: int) -> date:
    """The same day so many months on, or the last of that month when it has no such day."""
    exact("Months", months, least=0, most=1200)
    years, month = divmod(day.month - 1 + months, 12)
    year = day.year + years
    return date(year, month + 1, min(day.day, calendar.monthrange(year, month + 1)[1]))
