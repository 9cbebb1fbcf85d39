"""The papers of the studio as PDF: run sheet, pickup notice. Printed by WeasyPrint, without any network.

The paper of an invoice is told in `invoice_paper`, and is asked for here as the others are.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from django.conf import settings
from django.db.models import Max
from django.urls import reverse
from django.utils.safestring import SafeString
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bookings import formats, press
from bookings.models import Order, SittingDay
from bookings.qr import qr_svg
from bookings.selectors import queue
from bookings.selectors.handover import named_person
from bookings.selectors.orders import account
from bookings.selectors.prices import the_studio
from plates.capacity import PlatePlan, SittingPlan
from plates.models import PlateEvent, Stage
from plates.words import within

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
        "bookings/papers/run_sheet.html",
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


def pickup_notice_pdf(order: Order, *, now: datetime) -> bytes:
    """What lies ready for an order, what is owed and how a plate is kept, with lines for whoever collects."""
    studio = the_studio()
    day = order.sitting.day
    owing = account(order)
    plates = queue.plates_of(order.sitting)
    ready = _ready_at(order)
    return press.pdf(
        "bookings/papers/pickup_notice.html",
        {
            "studio": studio,
            "studio_address": studio.address.splitlines(),
            "order": order,
            "name": order.client.name if order.client else "",
            "plates": [(plate, _since(ready, plate, day, studio.locale)) for plate in plates],
            "all_ready": all(plate.live is not None and plate.live.pk in ready for plate in plates),
            "extras": [line for line in order.lines.all() if line.extra_id is not None],
            "owed": formats.amount(owing.owed, order.currency, studio.locale) if owing.owed > 0 else "",
            "total": formats.amount(owing.gross, order.currency, studio.locale),
            "paid": formats.amount(owing.paid, order.currency, studio.locale),
            "printed": formats.moment(day.local(now), studio.locale),
            "code": formats.in_groups(order.pickup_code or ""),
            "code_drawn": _code_drawn(order),
            "person": named_person(order),
        },
        paper=press.Paper.of(studio.country),
    )


def _code_drawn(order: Order) -> SafeString | None:
    """The code of an order for a phone: it opens the page of the desk where its plates are handed over."""
    if not order.pickup_code:
        return None
    return qr_svg(f"{settings.SITE_ADDRESS}{reverse('studio:handovers')}?code={order.pickup_code}")


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


def _sheet_plate(day: SittingDay, plate: queue.QueuePlate, plan: PlatePlan) -> SheetPlate:
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


def _ready_at(order: Order) -> dict[int, datetime]:
    """When each plate of an order became ready, by the plate's id; a plate that is not is left out."""
    standing = PlateEvent.objects.standing()
    events = standing.filter(plate__slot__job=order.sitting.bench_job_id, stage=Stage.READY)
    return dict(events.values("plate_id").annotate(since=Max("at")).values_list("plate_id", "since"))


def _since(ready: Mapping[int, datetime], plate: queue.QueuePlate, day: SittingDay, locale: str) -> str:
    """Say where a plate is on its way into the client's hands."""
    live = plate.live
    if live is None:
        return _("Not made yet")
    if live.stage == Stage.HANDED_OVER:
        return _("Handed over")
    if live.pk not in ready:
        return _("Not ready: {stage}").format(stage=within(live.get_stage_display()))
    return _("Ready since {date}").format(date=formats.long_date(day.local(ready[live.pk]).date(), locale))
