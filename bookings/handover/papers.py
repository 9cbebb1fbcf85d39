"""The pickup notice of an order, as PDF."""

from collections.abc import Mapping
from datetime import datetime

from django.conf import settings
from django.db.models import Max
from django.urls import reverse
from django.utils.safestring import SafeString
from django.utils.translation import gettext as _

from bookings.common import formats
from bookings.common import paper as press
from bookings.common.codes import qr_svg
from bookings.common.countries import country_name
from bookings.diary.models import SittingDay
from bookings.handover.selectors.desk import named_person, ready_plates
from bookings.orders.models import Order
from bookings.orders.selectors.account import account
from bookings.orders.selectors.plates import QueuePlate, plates_of
from bookings.studio.selectors import the_studio
from plates.bench.models import PlateEvent, Stage
from plates.common.words import within


def pickup_notice_pdf(order: Order, *, now: datetime) -> bytes:
    """What lies ready for an order, what is owed and how a plate is kept, with lines for whoever collects."""
    studio = the_studio()
    day = order.sitting.day
    owing = account(order)
    plates = plates_of(order.sitting)
    ready = _ready_at(order)
    return press.pdf(
        "bookings/handover/papers/pickup_notice.html",
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


def _ready_at(order: Order) -> dict[int, datetime]:
    """When each plate of an order became ready, by the plate's id; a plate that is not is left out."""
    standing = PlateEvent.objects.valid()
    events = standing.filter(plate__slot__job=order.sitting.bench_job_id, stage=Stage.READY)
    return dict(events.values("plate_id").annotate(since=Max("at")).values_list("plate_id", "since"))


def _since(ready: Mapping[int, datetime], plate: QueuePlate, day: SittingDay, locale: str) -> str:
    """Say where a plate is on its way into the client's hands."""
    live = plate.live
    if live is None:
        return _("Not made yet")
    if live.stage == Stage.HANDED_OVER:
        return _("Handed over")
    if live.pk not in ready:
        return _("Not ready: {stage}").format(stage=within(live.get_stage_display()))
    return _("Ready since {date}").format(date=formats.long_date(day.local(ready[live.pk]).date(), locale))


def packing_slip_pdf(order: Order, *, now: datetime) -> bytes:
    """Print it with the plates that are ready; without prices, for whoever opens the parcel."""
    studio, client, day = the_studio(), order.client, order.sitting.day
    address = [*client.address.splitlines(), country_name(client.country)] if client else []
    return press.pdf(
        "bookings/handover/papers/packing_slip.html",
        {
            "studio": studio,
            "studio_address": studio.address.splitlines(),
            "order": order,
            "name": client.name if client else "",
            "address": [line for line in address if line],
            "plates": ready_plates(order),
            "extras": [line for line in order.lines.all() if line.extra_id is not None],
            "printed": formats.moment(day.local(now), studio.locale),
        },
        paper=press.Paper.of(studio.country),
    )
