"""When plates can be collected by what is promised and lies on the rack.

Loads numpy, which takes a moment: import it only where a date is asked for.
"""

from collections.abc import Collection, Sequence
from datetime import date, datetime, timedelta, tzinfo

from plates.finishing.forecast import Lying, WorkDays, work_days
from plates.finishing.forecast.outlook import Forecast, Outlook, look_ahead
from plates.finishing.models import Finishing
from plates.finishing.selectors.rack import Awaited

# How far beyond the last plate the calendar reaches: varnish that is asked for in so many days is done by then.
BEYOND = timedelta(days=180)
# Keys of plates that have no slot yet; no table of slots grows so long.
UNKNOWN = 2**62


def outlook(
    *,
    finishing: Finishing,
    zone: tzinfo,
    closed: Collection[date],
    plates: Sequence[Awaited],
    now: datetime,
    until: datetime | None = None,
) -> Outlook:
    """The outlook with `plates` in the order in which they were promised.

    `until`: when the latest plate that will be asked about comes onto the rack.
    """
    last = max([now, *(plate.racked for plate in plates), *([until] if until else [])])
    days = work_days(finishing.hours(), now=now, days=(last + BEYOND - now).days, zone=zone, closed=closed)
    return look_ahead(days, finishing.work(), [_lying(days, plate) for plate in plates])


def behind(*, outlook: Outlook, racked: Sequence[datetime]) -> Forecast | None:
    """When plates that come onto the rack at these instants would be ready, behind all others."""
    days = outlook.days
    return outlook.behind([Lying(UNKNOWN + place, days.minute(at)) for place, at in enumerate(racked)])


def _lying(days: WorkDays, plate: Awaited) -> Lying:
    varnished = None if plate.varnished is None else days.minute(plate.varnished)
    return Lying(plate.slot_id, days.minute(plate.racked), varnished)
