"""What a client adds to an order that is placed: one more plate, or the post in place of collecting."""

from datetime import datetime

from django.db import transaction
from django.db.models import F
from django.utils.translation import gettext as _

from bookings.changes.services import sittings
from bookings.diary.selectors import refuse_dark
from bookings.errors import NotForSale, OrderInvoiced
from bookings.handover.services import promises
from bookings.invoices.selectors.invoices import fixed_by_invoice
from bookings.orders.models import Client, LineKind, Order, OrderLine, Sitting
from bookings.orders.selectors.lines import lines_for
from bookings.orders.services import placing as order_lines
from bookings.orders.wishes import Wish
from bookings.outbox import services as outbox
from bookings.outbox.models import NoticeKind
from bookings.pricing.models import Extra, ExtraKind
from plates.bench.models import PlateSize
from plates.schedule.services import jobs as bench
from plates.schedule.services.replanning import foreseeing


@foreseeing
@transaction.atomic
def add_plate(*, order_id: int, size: PlateSize, now: datetime) -> OrderLine:
    """Promise one more plate in the same sitting, at the price of the sitting's day, and write to the client.

    BenchFull, BenchPromised, StartPassed, NotInLight, NothingChosen, NotForSale, OrderCancelled or OrderInvoiced
    changes nothing.
    """
    sitting = Sitting.objects.select_related("bench_job", "day__venue", "day__bench_day").get(
        order_id=order_id
    )
    bench.lock_day(sitting.bench_job.day_id)
    order = _growing_order(order_id)
    sizes = [*sitting.bench_job.sizes(), size]
    line = _priced(Wish(sizes=sizes), sitting)
    refuse_dark(day=sitting.day, starts_at=sitting.bench_job.starts_at, plates=len(sizes))
    line.slot = bench.add_plate(job_id=sitting.bench_job_id, size=size, now=now)
    order_lines.add_line(order=order, line=line)
    Sitting.objects.filter(pk=sitting.pk).update(calendar_sequence=F("calendar_sequence") + 1)
    promises.postpone(order_id=order_id, now=now)
    if sitting.bench_job.confirmed_at is not None:
        sequence = sitting.calendar_sequence + 1
        outbox.queue(order=order, kind=NoticeKind.CONFIRMED, sequence=sequence, due_at=now)
    return line


@transaction.atomic
def send_by_post(*, order_id: int, post: Extra, address: str, country: str, now: datetime) -> OrderLine:
    """Send the plates to an address in place of having them collected, for the price of the post. Once an order."""
    order = _growing_order(order_id)
    if not post.offered or post.kind != ExtraKind.POST:
        raise NotForSale(_("Plates are not sent by post at present. Write to the studio."))
    Client.objects.filter(orders=order).update(address=address, country=country)
    if line := order.lines.filter(extra__kind=ExtraKind.POST).first():
        return line
    line = OrderLine(
        kind=LineKind.EXTRA,
        text=post.name,
        unit_amount=post.amount,
        tax_class=post.tax_class,
        tax_category=post.tax_class.category,
        tax_rate_bp=post.tax_class.rate_bp,
        extra=post,
    )
    return order_lines.add_line(order=order, line=line)


def _priced(wish: Wish, sitting: Sitting) -> OrderLine:
    """The line of the last of these plates, as it would cost had all been asked for together, without a discount."""
    lines = lines_for(wish=wish, on=sitting.day.bench_day.on, venue=sitting.day.venue, discount=None)
    return [line for line in lines if line.kind == LineKind.PLATE][-1]


def _growing_order(order_id: int) -> Order:
    """The order, locked, if something can still be added to it."""
    order = sittings.open_order(order_id=order_id)
    if fixed_by_invoice(order):
        raise OrderInvoiced(
            _("The invoice of this order was issued, so nothing can be added. Write to the studio.")
        )
    return order
