"""What one more of anything would let a day of a bench still make."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

from plates.bench.models import BenchDay, PlateSize
from plates.budgets.limits import limits_of
from plates.schedule.selectors.openings import promised_jobs

if TYPE_CHECKING:
    from plates.capacity.what_if import StillToSell


@dataclass(frozen=True, slots=True)
class WorkedOut:
    """The bench as it stands first, then each change worked out so far; `open_changes` are still to be worked out."""

    found: "tuple[StillToSell, ...]"
    open_changes: tuple[str, ...]


def still_to_sell(
    *, day: BenchDay, size: PlateSize, starts: Sequence[datetime], assistant_from: datetime, now: datetime
) -> WorkedOut:
    """How many more one-plate sittings of a size the day could take at `starts`, as it stands and with each change.

    Whatever is promised at `now` is kept. Takes about three seconds; asked again, it goes on where it stopped.
    """
    # The solver takes a third of a second to load, so it is loaded only where it is asked.
    from plates.capacity.exact.fill import Asked
    from plates.capacity.what_if import changes, what_if

    left = limits_of(day=day, now=now)
    asked = Asked(
        bench=left.bench(day),
        day=day.as_capacity(),
        booked=tuple(job.as_booked(now) for job in promised_jobs(day=day, now=now)),
        size=size.as_capacity(),
        starts=tuple(day.minute(start) for start in starts),
        in_stock=left.most(size.as_capacity()),
    )
    come = day.minute(assistant_from)
    found = what_if(asked, assistant_from=come)
    return WorkedOut(found, tuple(change.name for change in changes(asked.bench, come)[len(found) :]))
