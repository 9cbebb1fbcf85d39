"""By which date plates are promised, and which promises are at risk.

numpy takes a moment to load, so it is loaded only where a date is asked for.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, tzinfo
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from django.db.models import Exists, OuterRef, QuerySet, Subquery
from django.db.models.functions import Coalesce

from bookings.diary.models import SittingDay, Venue
from bookings.orders.models import Order, Sitting
from plates.bench.models import BenchJob
from plates.finishing.models import Finishing
from plates.finishing.selectors import rack as finishing

if TYPE_CHECKING:
    from plates.finishing.forecast.outlook import Outlook

# An outlook is off by as much as two samples of it may differ: so much below the certainty nothing is called at risk.
SAMPLING = 0.02


@dataclass(frozen=True, slots=True)
class AtRisk:
    """An order that will hardly be ready by its date: the chance that it is, and the date that can be kept instead.

    `on` is None where nobody can say, as for a plate that was given up and has no new time.
    """

    order: Order
    chance: float
    on: date | None


@dataclass(frozen=True, slots=True)
class Prospect:
    """The outlook at one moment, and how sure a date has to be, 0 to 1."""

    outlook: Outlook
    certainty: float

    def ready_on(self, racked: Sequence[datetime]) -> date | None:
        """The date to promise for plates that come onto the rack at these instants; None where there is none."""
        from plates.finishing.selectors.outlook import behind

        found = behind(outlook=self.outlook, racked=racked)
        return found.sure(self.certainty) if found else None


def prospect(*, now: datetime, excluding_job: int | None = None, until: datetime | None = None) -> Prospect:
    """The outlook with every promised plate, those of the bench job `excluding_job` left out.

    `until`: when the latest plate that will be asked about comes onto the rack.
    """
    from plates.finishing.selectors.outlook import outlook

    set_up, zone = _set_up()
    plates = [
        plate
        for plate in finishing.awaited(now=now, order=_first_promised())
        if plate.job_id != excluding_job
    ]
    closed = finishing.closed_dates(since=now.astimezone(zone).date())
    found = outlook(finishing=set_up, zone=zone, closed=closed, plates=plates, now=now, until=until)
    return Prospect(found, set_up.certainty / 100)


def promise_for(*, job: BenchJob, now: datetime) -> date | None:
    """The date to promise for all plates of a job, behind all that was promised before; needs `day` at hand."""
    racked = finishing.racked_at(job)
    return prospect(now=now, excluding_job=job.pk, until=max(racked)).ready_on(racked)


def ready_days(*, days: Sequence[SittingDay], plates: int, now: datetime) -> dict[int, date | None]:
    """For each day the date by which so many plates of it would be ready, by the day's id.

    They are taken to come onto the rack with the last of the day, so that what is promised later is no later than this.
    """
    if not days:
        return {}
    racked = {day.pk: day.bench_day.racks_empty_by for day in days}
    ahead = prospect(now=now, until=max(racked.values()))
    return {day_id: ahead.ready_on([at] * plates) for day_id, at in racked.items()}


def at_risk(*, now: datetime) -> list[AtRisk]:
    """The promises that the present outlook misses, the earliest date first."""
    orders = list(_open_promises(now))
    if not orders:
        return []
    ahead = prospect(now=now)
    slots = finishing.unfinished_slots(job_ids=[order.sitting.bench_job_id for order in orders])
    found = [_outlook_of(order, slots[order.sitting.bench_job_id], ahead) for order in orders]
    return [each for each in found if each.chance < ahead.certainty - SAMPLING]


def _outlook_of(order: Order, slots: set[int], ahead: Prospect) -> AtRisk:
    if not slots <= ahead.outlook.packed.keys():
        return AtRisk(order, 0.0, None)
    forecast = ahead.outlook.of(slots)
    if forecast is None or order.promised_on is None:
        return AtRisk(order, 1.0, order.promised_on)
    return AtRisk(order, forecast.chance_by(order.promised_on), forecast.sure(ahead.certainty))


def _open_promises(now: datetime) -> QuerySet[Order]:
    """Orders with a promised date and a plate that is not ready, whose sitter is not given up."""
    job = OuterRef("sitting__bench_job")
    orders = Order.objects.filter(
        Exists(finishing.unfinished().filter(job=job)),
        Exists(BenchJob.objects.promised(now).filter(pk=job)),
        promised_on__isnull=False,
        cancelled_at=None,
        sitting__absent_at=None,
    )
    return orders.select_related("client", "sitting__bench_job").order_by("promised_on", "pk")


def _first_promised() -> Coalesce:
    """Which plate is taken first: that of the order that was promised a date first; a mere hold counts by its start."""
    orders = Sitting.objects.filter(bench_job=OuterRef("job_id"))
    return Coalesce(
        Subquery(orders.values("order__promised_at")[:1]), Subquery(orders.values("order__started_at")[:1])
    )


def _set_up() -> tuple[Finishing, tzinfo]:
    """How plates are finished, and on which clock: that of the first venue, where the studio is at home."""
    home = Venue.objects.order_by("pk").values("zone")[:1]
    found = Finishing.objects.annotate(home=Subquery(home)).first()
    zone = found.home if found else home.values_list("zone", flat=True).first()
    return found or finishing.the_finishing(), ZoneInfo(zone) if zone else UTC
