"""What chance may do to a day as it is promised.

Loads the solver and numpy, which takes a moment: import it only where chances are asked for.
"""

from dataclasses import dataclass
from datetime import datetime, timedelta

from plates.bench.models import BenchDay, BenchJob, PlateSize
from plates.capacity.risk.assess import risk
from plates.capacity.risk.spacing import Spacing, retake_budget, spacing
from plates.capacity.risk.values import Estimate, SitterRisk
from plates.schedule.selectors.openings import promised_jobs

MOST_PLATES_SPACED = 3


@dataclass(frozen=True, slots=True)
class DayChances:
    """The sitters in promised order with their luck; the chances of the whole day; plates to have chemistry for.

    `ends` and `ends_late` are when the last sitter has left on half and on 95 % of the days, None on an empty day.
    """

    sitters: list[tuple[BenchJob, SitterRisk]]
    late_close: Estimate
    racks: Estimate
    wet: Estimate
    ends: datetime | None
    ends_late: datetime | None
    plates: int
    plates_to_have: int


def day_chances(*, day: BenchDay, now: datetime) -> DayChances:
    """Play the day as promised at `now` a few thousand times, with the luck its bench reckons with."""
    jobs = promised_jobs(day=day, now=now)
    booked = [job.as_booked() for job in jobs]
    chances = day.bench.as_chances()
    played = risk(day.bench.as_capacity(), day.as_capacity(), booked, chances)
    plates = sum(len(each.sitting.plates) for each in booked)
    return DayChances(
        sitters=list(zip(jobs, played.sitters, strict=True)),
        late_close=played.late_close,
        racks=played.racks,
        wet=played.wet,
        ends=_instant(day, played.ends) if jobs else None,
        ends_late=_instant(day, played.ends_late) if jobs else None,
        plates=plates,
        plates_to_have=retake_budget(plates, chances.retake),
    )


def suggested_spacings(*, day: BenchDay, size: PlateSize) -> list[tuple[int, Spacing | None]]:
    """For sittings of one to MOST_PLATES_SPACED plates: how far apart an empty day like this one keeps its promise.

    Nothing is suggested (None) where no such sitting can be made; without a limit on waiting, nothing at all.
    """
    if day.bench.wait_chance is None:
        return []
    bench, hours, chances = day.bench.as_capacity(), day.as_capacity(), day.bench.as_chances()
    counts = range(1, MOST_PLATES_SPACED + 1)
    return [(count, spacing(bench, hours, (size.as_capacity(),) * count, chances)) for count in counts]


def _instant(day: BenchDay, minute: float) -> datetime:
    return day.opens_at + timedelta(minutes=round(minute))
