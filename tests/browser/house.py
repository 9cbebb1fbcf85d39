"""A studio in the middle of its work: every page has something to show, and long names to show it with."""

from dataclasses import dataclass
from datetime import time, timedelta
from uuid import uuid4

from django.contrib.auth.models import User

from bookings.changes.services import sittings
from bookings.diary.models import SittingDay
from bookings.handover.models import Parcel
from bookings.invoices.models import InvoiceRun
from bookings.orders.models import Order
from bookings.pricing.models import SizePrice
from bookings.vouchers.models import Voucher
from bookings.vouchers.services import redeeming
from plates.bench.models import Bench, BenchJob, Plate
from tests import builders
from tests.bookings.cards.worlds import a_page, paid, take
from tests.browser.house_plates import (
    LONG_ADDRESS,
    LONG_NAME,
    a_half_made_order,
    a_plateless_order,
    a_posted_order,
    somebody_forgotten,
)
from tests.browser.stall import a_quiet_stall, a_stall
from tests.builders import NOW
from tests.builders.logs import a_log
from tests.builders.store import AStore, a_full_store
from tests.builders.waste import some_waste


@dataclass
class House:
    """The rows that the scenes point at, each in its own state."""

    busy: SittingDay
    empty: SittingDay
    full: SittingDay
    held: Order
    placed: Order
    paid: Order
    cancelled: Order
    displaced: Order
    plateless: Order
    plate: Plate
    learned: Bench
    stall: SittingDay
    quiet: SittingDay
    used_voucher: Voucher
    unpaid_voucher: Voucher
    run: InvoiceRun
    posted: Order
    parcel: Parcel
    store: AStore


def furnished():
    """Build the house in an empty database; no photographer yet."""
    for name in builders.SIZES:
        builders.a_size(name)
    builders.an_extra()
    builders.an_extra("Posted between two boards, insured, to any island of the archipelago", "post", 1850)
    _dearer_later()
    builders.a_surcharge()
    builders.a_discount(text="Neighbours of the harbour and of every island of the archipelago")
    # Of the store room only the varnish limits the days: what is shown as running out must not close them.
    bench = builders.a_bench(
        sitters_at_once=1, limited_by_collodion=False, limited_by_varnish=True, weak_bath="nothing"
    )
    some_waste()
    busy, empty, full = (builders.a_day(bench=bench, **hours) for hours in _days())
    builders.made_plates(builders.a_paid_order(full))
    paid, plate = a_half_made_order(busy)
    posted, parcel = a_posted_order(bench)
    for email in (LONG_ADDRESS, "wren@example.org"):
        hours = {"earliest": time(10), "latest": time(10, 30)}
        builders.a_waiting(full, name=LONG_NAME, email=email, sizes=("quarter", "whole"), **hours)
    somebody_forgotten(busy)
    bench.wait_chance = 10
    bench.save()
    return House(
        busy=busy,
        empty=empty,
        full=full,
        held=builders.a_held_order(
            busy, at=time(14), extras={builders.an_extra(): 2}, sitters=12, code="HARBOUR10"
        ),
        placed=_at_the_card_service(
            _later(builders.a_placed_order(busy, at=time(12), name="Wren Achterberg"))
        ),
        paid=paid,
        cancelled=_cancelled(busy),
        displaced=_displaced(busy),
        plateless=a_plateless_order(bench),
        plate=plate,
        learned=_learned(),
        stall=a_stall(),
        quiet=a_quiet_stall(),
        used_voucher=_used_voucher(paid),
        unpaid_voucher=builders.a_voucher(paid=False),
        run=_a_run(paid),
        posted=posted,
        parcel=parcel,
        store=a_full_store(busy.bench_day.bench),
    )


def _dearer_later():
    """The third day asks more for a quarter plate, and less for each further one."""
    SizePrice.objects.create(
        size=builders.a_size("quarter"),
        amount=9500,
        further_amount=9000,
        tax_class=builders.a_tax_class(),
        holds_from=builders.SATURDAY + timedelta(days=2),
    )


def _a_run(issued):
    """Many invoices at once, of which one is issued, one refused with a long sentence, one waits."""
    clerk, _ = User.objects.get_or_create(username="clerk")
    run = InvoiceRun.objects.create(asked_at=NOW, asked_by=clerk, by_mail=True)
    run.orders.create(order=issued, invoice=issued.invoices.filter(kind="380").first())
    others = Order.objects.filter(placed_at__isnull=False).exclude(pk=issued.pk).order_by("pk")
    run.orders.create(order=others[0], refused="This invoice does not add up and was not issued. " * 5)
    run.orders.create(order=others[1])
    return run


def _at_the_card_service(order):
    """Somebody was sent to pay by card, and nothing has been told of it yet."""
    a_page(order, name="cs_0")
    return order


def _later(order):
    """A sitting that will begin so late that the hours of its day cannot keep it."""
    job = order.sitting.bench_job
    BenchJob.objects.filter(pk=job.pk).update(expected_at=job.starts_at + timedelta(hours=5, minutes=50))
    return order


def _learned():
    """A bench whose log teaches something of every step, of one size more than of another."""
    bench = builders.a_bench(name="Travelling tent")
    a_log(bench, 14)
    a_log(bench, 2, size="whole", first=NOW - timedelta(days=5))
    return bench


def _days():
    yield {}
    yield {"on": builders.SATURDAY + timedelta(days=1)}
    short = {"closes": time(10, 30), "racks_empty_by": time(12), "start_every": 30}
    yield {"on": builders.SATURDAY + timedelta(days=2)} | short


def _used_voucher(order):
    """A voucher with words as long as they can be, of which a part has paid for an order and a part went back."""
    words = {
        "buyer_name": LONG_NAME,
        "buyer_email": LONG_ADDRESS,
        "for_name": LONG_NAME,
        "message": "w" * 300,
    }
    voucher = builders.a_voucher(**words)
    redeeming.redeem(order_id=order.pk, code=voucher.code, key=uuid4(), amount=2500, now=NOW)
    redeeming.refund(order_id=order.pk, voucher_id=voucher.pk, amount=500, key=uuid4(), now=NOW)
    return voucher


def _lapsed(order):
    BenchJob.objects.filter(pk=order.sitting.bench_job_id).update(held_until=NOW - timedelta(minutes=1))
    return order


def _cancelled(day):
    order = builders.a_paid_order(day, at=time(17))
    sittings.cancel(order_id=order.pk, now=NOW)
    return order


def _displaced(day):
    """An order whose deposit came after its place had gone."""
    order = _lapsed(builders.a_placed_order(day, at=time(13), name="Ottilie Marrow"))
    builders.a_paid_order(day, at=time(13), name="Ismay Tolliver")
    builders.pay(order, 4250)
    # And the rest by card, another sum than was asked.
    a_page(order)
    take(paid(amount=4000))
    return Order.objects.get(pk=order.pk)
