"""Orders of the furnished house of which plates were made, spoilt, invoiced or sent, in words as long as can be."""

from datetime import time, timedelta
from decimal import Decimal
from uuid import uuid4

from django.contrib.auth.models import User

from bookings.changes.services import additions
from bookings.clients import services as own_data
from bookings.diary.models import SittingDay
from bookings.handover.services import posting
from bookings.invoices.services import credit_notes
from bookings.invoices.services import issuing as invoices
from bookings.invoices.services import sealed as kept_away
from bookings.orders.models import Order
from bookings.orders.selectors.account import account
from bookings.orders.services import clients as people
from bookings.outbox import services as outbox
from bookings.outbox.models import Notice, NoticeKind
from plates.bench.models import PlateSlot, SpoiltReason, Stage
from plates.finishing import services as closing
from plates.ledger.services import events as ledger
from plates.ledger.services import facts
from plates.ledger.services.facts import Noted
from tests import builders
from tests.builders import NOW
from tests.plates.ledger.test_pictures import a_picture

LONG_NAME = "Maximiliana-Theodora Featherstonehaugh-Oyelaran " + "Wolfeschlegelsteinhausen" * 2
LONG_ADDRESS = "maximiliana.theodora." + "featherstonehaugh" * 2 + "@plates-and-portraits.example.org"


def somebody_forgotten(day):
    """Somebody who collected the plate and asked to be forgotten; the invoice was looked at since."""
    order = builders.a_paid_order(day, at=time(11, 30), amount=8500, email="forget@example.org")
    builders.made_plates(order, stage=Stage.HANDED_OVER)
    invoice = invoices.issue(order_id=order.pk, now=NOW)
    evening = NOW + timedelta(days=9)
    own_data.erase(client_id=order.client_id, now=evening)
    clerk, _ = User.objects.get_or_create(username="clerk")
    kept_away.open_sealed(invoice_id=invoice.pk, by=clerk, reason="r" * 200, now=evening)


def a_half_made_order(day):
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
    letter = outbox.queue(order=order, kind=NoticeKind.READY, due_at=NOW)
    error = "SMTPRecipientsRefused: " + "x" * 120
    Notice.objects.filter(pk=letter.pk).update(given_up_at=NOW, tries=10, last_error=error)
    return order, plate


def a_posted_order(bench):
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
    facts.save_picture(plate_id=plate.pk, content=a_picture(size=(900, 1200)), operator=None, now=NOW)


def _spoilt(slot):
    plate = builders.made_plate(slot, Stage.EXPOSED, NOW)
    reason, note = SpoiltReason.STREAKED, "comets from the upper left corner, old collodion"
    ledger.spoil(plate_id=plate.pk, reason=reason, note=note, operator=None, now=NOW)


def a_plateless_order(bench):
    """An order of which no plate came out, and that would be late to change; its day is not shown to visitors."""
    day = builders.a_day(bench=bench, on=builders.SATURDAY + timedelta(days=4))
    order = builders.a_paid_order(day, name="Corentin Vane")
    [slot] = PlateSlot.objects.filter(job=order.sitting.bench_job)
    _spoilt(slot)
    SittingDay.objects.filter(pk=day.pk).update(published=False)
    return order
