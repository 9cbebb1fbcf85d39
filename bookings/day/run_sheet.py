"""The papers of the studio as PDF: run sheet, pickup notice. Printed by WeasyPrint, without any network.

The paper of an invoice is told in `invoice_paper`, and is asked for here as the others are.
"""

from dataclasses import dataclass
from datetime import datetime

from django.utils.translation import gettext_lazy

from bookings.common import formats
from bookings.common import paper as press
from bookings.day.selectors import queue
from bookings.diary.models import SittingDay
from bookings.orders.selectors.plates import QueuePlate
from bookings.studio.selectors import the_studio
from plates.capacity import PlatePlan, SittingPlan

# The steps of a plate that somebody ticks on the wall, in order, and where the plan holds their minute.
STEPS = {
    gettext_lazy("Pour"): "pour",
    gettext_lazy("Into bath"): "tank_in",
    gettext_lazy("Out of bath"): "tank_out",
    gettext_lazy("Develop"): "develop",
    gettext_lazy("Into wash"): "wash_in",
    gettext_lazy("Lift"): "lift",
}


@dataclass(frozen=True, slots=True)
class SheetPlate:
    """One promised plate on the run sheet; `clocks` are the planned times of STEPS on the venue's clock.

    Each is a time and, where that clock shows it twice, a word that tells which: ("01:30", "(UTC+1)").
    """

    position: int
    size: str
    number: int | None
    clocks: list[tuple[str, str]]


@dataclass(frozen=True, slots=True)
class SheetSitting:
    """One sitting on the run sheet; `owed` is an amount in words, empty when nothing is."""

    clock: str
    name: str
    reference: str
    people: int
    confirmed: bool
    owed: str
    over: str
    plates: list[SheetPlate]


def run_sheet_pdf(day: SittingDay, *, now: datetime, paper: press.Paper | None = None) -> bytes:
    """The sittings of a day in promised order with the planned minutes of every plate, to be ticked on the wall."""
    studio = the_studio()
    hours = day.bench_day
    return press.pdf(
        "bookings/day/papers/run_sheet.html",
        {
            "studio": studio,
            "day": day,
            "date": formats.long_date(hours.on, studio.locale),
            "opens": formats.clock(day.local(hours.opens_at)),
            "closes": formats.clock(day.local(hours.closes_at)),
            "racks_empty_by": formats.clock(day.local(hours.racks_empty_by)),
            "zone": day.venue.zone,
            "offset": formats.offset(day.local(hours.opens_at)),
            "printed": formats.moment(day.local(now), studio.locale),
            "steps": list(STEPS),
            "sittings": [
                _sheet_sitting(day, row, studio.locale) for row in queue.day_queue(day=day, now=now)
            ],
        },
        paper=paper or press.Paper.of(studio.country),
    )


def _sheet_sitting(day: SittingDay, row: queue.QueueRow, locale: str) -> SheetSitting:
    job = row.sitting.bench_job
    plan = SittingPlan.from_json(job.plan)
    owed = row.account.owed
    return SheetSitting(
        clock=formats.clock(row.starts_at),
        name=row.order.client.name if row.order.client else "",
        reference=row.order.reference,
        people=row.order.sitters,
        confirmed=row.confirmed,
        owed=formats.amount(owed, row.account.currency, locale) if owed > 0 else "",
        over=_clock(day, plan.farewell + day.bench_day.bench.farewell),
        plates=[_sheet_plate(day, *pair) for pair in zip(row.plates, plan.plates, strict=True)],
    )


def _sheet_plate(day: SittingDay, plate: QueuePlate, plan: PlatePlan) -> SheetPlate:
    return SheetPlate(
        position=plate.slot.position,
        size=plate.slot.size.name,
        number=plate.live.number if plate.live else None,
        clocks=[_in_two(_clock(day, getattr(plan, step))) for step in STEPS.values()],
    )


def _clock(day: SittingDay, minute: int) -> str:
    return formats.clock(day.local(day.bench_day.instant(minute)))


def _in_two(clock: str) -> tuple[str, str]:
    told, _blank, apart = clock.partition(" ")
    return told, apart
