"""A studio in the middle of its work: every page has something to show, and long names to show it with."""

from dataclasses import dataclass
from datetime import time, timedelta
from decimal import Decimal
from uuid import uuid4

from django.contrib.auth.models import User

from bookings.models import InvoiceRun, Notice, NoticeKind, Order, Parcel, SittingDay, SizePrice, Voucher
from bookings.selectors.orders import account
from bookings.services import (
    additions,
    credit_notes,
    invoices,
    kept_away,
    notices,
    own_data,
    people,
    posting,
    redeeming,
    sittings,
)
from plates.models import Bench, BenchJob, Plate, PlateSlot, SpoiltReason, Stage
from plates.services import facts, ledger
from plates.services import finishing as closing
from plates.services.facts import Noted
from tests import builders
from tests.bookings.services.card_worlds import a_page, paid, take
from tests.browser.stall import a_quiet_stall, a_stall
from tests.builders import NOW
from tests.plates.logged import a_log
from tests.plates.stores import AStore, a_full_store
from tests.plates.test_pictures import a_picture
from tests.plates.wastes import some_waste

LONG_NAME = "Maximiliana-Theodora Featherstonehaugh-Oyelaran " + "Wolfeschlegelsteinhausen" * 2
LONG_ADDRESS = "maximiliana.theodora." + "featherstonehaugh" * 2 + "@plates-and-portraits.example.org"


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
    paid, plate = _half_made(busy)
    posted, parcel = _posted(bench)
    for email in (LONG_ADDRESS, "wren@example.org"):
        hours = {"earliest": time(10), "latest": time(10, 30)}
        builders.a_waiting(full, name=LONG_NAME, email=email, sizes=("quarter", "whole"), **hours)
    _forgotten(busy)
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
        plateless=_plateless(bench),
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


def _forgotten(day):
    """Somebody who collected the plate and asked to be forgotten; the invoice was looked at since."""
    order = builders.a_paid_order(day, at=time(11, 30), amount=8500, email="forget@example.org")
    builders.made_plates(order, stage=Stage.HANDED_OVER)
    invoice = invoices.issue(order_id=order.pk, now=NOW)
    evening = NOW + timedelta(days=9)
    own_data.erase(client_id=order.client_id, now=evening)
    clerk, _ = User.objects.get_or_create(username="clerk")
    kept_away.look(invoice_id=invoice.pk, by=clerk, reason="r" * 200, now=evening)


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


def _half_made(day):
    """Four plates of one client: one ready, one in the wash after a spoilt one, one spoilt, one not poured."""
    order = builders.a_paid_order(
        day, sizes=("half", "quarter", "quarter", "sixth"), name=LONG_NAME, email=LONG_ADDRESS
    )
    first, second, third, _ = PlateSlot.objects.filter(job=order.sitting.bench_job)
    plate = builders.made_plate(first, Stage.READY, NOW)
    _noted(plate)
    _spoilt(second)
    builders.made_plate(second, Stage.WASHING, NOW - timedelta(hours=3))
    _spoilt(third)
    _invoiced(order)
    letter = notices.queue(order=order, kind=NoticeKind.READY, due_at=NOW)
    error = "SMTPRecipientsRefused: " + "x" * 120
    Notice.objects.filter(pk=letter.pk).update(given_up_at=NOW, tries=10, last_error=error)
    return order, plate


def _posted(bench):
    """Of two plates to be sent far away one has gone, and one that was promised too early is still on the rack."""
    day = builders.a_day(bench=bench, on=builders.SATURDAY + timedelta(days=5))
    order = builders.a_paid_order(day, sizes=("quarter", "quarter"), name=LONG_NAME)
    post = builders.an_extra(
        "Posted between two boards, insured, to any island of the archipelago", "post", 1850
    )
    additions.send_by_post(order_id=order.pk, post=post, address="W" * 120, country="GB", now=NOW)
    builders.pay(order, account(Order.objects.get(pk=order.pk)).owed)
    first, second = PlateSlot.objects.filter(job=order.sitting.bench_job)
    builders.made_plate(first, Stage.READY, NOW)
    builders.made_plate(second, Stage.DRYING, NOW - timedelta(hours=3))
    Order.objects.filter(pk=order.pk).update(at_risk_since=NOW, outlook_on=day.bench_day.on)
    closing.close(days={builders.SATURDAY: "w" * 80})
    parcel = posting.post(
        order_id=order.pk, carrier="C" * 60, number="N" * 60, press=uuid4(), operator=None, now=NOW
    )
    SittingDay.objects.filter(pk=day.pk).update(published=False)
    return order, parcel


def _invoiced(order):
    """An invoice to a company with a name as long as it can be, one line of which was taken back."""
    to = people.MadeOutTo("Wolfeschlegelsteinhausen" * 5, "Quay 3\nSaltmarrow", "ES", "ES" + "1" * 38)
    people.make_out_to(order_id=order.pk, to=to)
    invoice = invoices.issue(order_id=order.pk, now=NOW)
    line = invoice.lines.last()
    credit_notes.issue(invoice_id=invoice.pk, reason="r" * 200, line_ids=[line.pk], now=NOW)


def _noted(plate):
    """Facts as long as they can be, and a picture."""
    said = Noted(
        batch="C" * 40, bath="B" * 40, exposure_seconds=Decimal("4.5"), lens="L" * 80, notes="n" * 2000
    )
    facts.note(plate_id=plate.pk, noted=said, operator=None, now=NOW)
    facts.keep_picture(plate_id=plate.pk, content=a_picture(size=(900, 1200)), operator=None, now=NOW)


def _spoilt(slot):
    plate = builders.made_plate(slot, Stage.EXPOSED, NOW)
    reason, note = SpoiltReason.STREAKED, "comets from the upper left corner, old collodion"
    ledger.spoil(plate_id=plate.pk, reason=reason, note=note, operator=None, now=NOW)


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
    redeeming.give_back(order_id=order.pk, voucher_id=voucher.pk, amount=500, key=uuid4(), now=NOW)
    return voucher


def _lapsed(order):
    BenchJob.objects.filter(pk=order.sitting.bench_job_id).update(held_until=NOW - timedelta(minutes=1))
    return order


def _cancelled(day):
    order = builders.a_paid_order(day, at=time(17))
    sittings.cancel(order_id=order.pk, now=NOW)
    return order


def _plateless(bench):
    """An order of which no plate came out, and that would be late to change; its day is not shown to visitors."""
    day = builders.a_day(bench=bench, on=builders.SATURDAY + timedelta(days=4))
    order = builders.a_paid_order(day, name="Corentin Vane")
    [slot] = PlateSlot.objects.filter(job=order.sitting.bench_job)
    _spoilt(slot)
    SittingDay.objects.filter(pk=day.pk).update(published=False)
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
