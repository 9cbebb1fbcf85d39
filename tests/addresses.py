"""A real address for every name in the table of doors: everything that it points at is there."""

from datetime import time
from uuid import uuid4

from django.contrib.auth.models import User
from django.urls import NoReverseMatch, reverse
from django.utils import timezone

from bookings.access import links as step_up_links
from bookings.access import services as step_up
from bookings.access.models import Purpose
from bookings.cards.models import CardNotice
from bookings.handover.models import HandedPlate, Handover, Parcel, Receipt
from bookings.invoices.models import InvoiceRun
from bookings.invoices.services import issuing as invoices
from bookings.letters import unsubscribe as stop_links
from bookings.orders import links
from bookings.vouchers import links as voucher_links
from bookings.waitlist import links as waiting_links
from bookings.walkups import links as line_links
from plates.bench.models import PlateSlot
from plates.finishing import services as finishing
from plates.finishing.models import ClosedDay
from tests import builders
from tests.bookings.cards.worlds import a_page, paid, take
from tests.builders import NOW
from tests.builders import store as stores
from tests.doors import SITTINGS, TABLE


def every_address():
    """Make the rows, once for all tests of a file, and return {name: address}."""
    day = builders.a_day()
    order = builders.a_paid_order(day)
    plate = builders.made_plates(order)[0]
    invoice = invoices.issue(order_id=order.pk, now=NOW)
    run = InvoiceRun.objects.create(asked_at=NOW, asked_by=User.objects.create_user("clerk"), finished_at=NOW)
    held = builders.a_held_order(day, at=time(12))
    checkout, sitting = links.checkout_token(held), links.sitting_token(order)
    page = a_page(order)
    take(paid())
    place, voucher, waits = builders.a_line_place(day), builders.a_voucher(), builders.a_waiting(day)
    asked = step_up.ask(order_id=order.pk, purpose=Purpose.DATA, now=timezone.now())
    arguments = {
        "day_id": day.pk, "slot_id": PlateSlot.objects.first().pk, "plate_id": plate.pk, "number": plate.number,
        "reference": order.reference, "bench_id": day.bench_day.bench_id, "bench_day_id": day.bench_day_id,
        "sitting_id": order.sitting.pk, "invoice_id": invoice.pk, "run_id": run.pk, "client_id": order.client_id,
        "page_id": page.pk, "notice_id": CardNotice.objects.get().pk, "place_id": place.pk,
        "voucher_id": voucher.pk, "waiting_id": waits.pk, "closed_day_id": a_closed_day().pk,
        "parcel_id": a_parcel(order, plate).pk, "kind": "confirmed", "secret": "guessed", "key": "ether",
    } | stores.some_ids()  # fmt: skip
    of_a_voucher = ("voucher", "voucher_paper", "voucher_practice_card", "pay_voucher_by_card")
    tokens = (
        dict.fromkeys(SITTINGS, sitting)
        | dict.fromkeys(of_a_voucher, voucher_links.voucher_token(voucher))
        | dict.fromkeys(("waiting", "waiting_leave"), waiting_links.token(waits))
        | dict.fromkeys(("line_join", "line_large"), line_links.line_token(day))
        | dict.fromkeys(("line_place", "line_leave"), line_links.place_token(place))
        | {"step_up": step_up_links.token(asked), "stop_reminders": stop_links.token(order.client.email)}
    )
    return {name: address(name, arguments | {"token": tokens.get(name, checkout)}) for name in TABLE}


def a_closed_day():
    finishing.close(days={builders.SATURDAY: "Fair"})
    return ClosedDay.objects.get()


def a_parcel(order, plate):
    """The plate has left by post."""
    given = Handover.objects.create(order=order, to="post", by_code=False, at=NOW, press=uuid4())
    HandedPlate.objects.create(handover=given, event=plate.events.last())
    Receipt.objects.create(handover=given)
    return Parcel.objects.create(handover=given, carrier="Gull", number="GL 1")


def address(name, arguments):
    """The address of `name`, given the one of `arguments` that it asks for, if any."""
    for wanted in [{}, *({key: value} for key, value in arguments.items())]:
        try:
            return reverse(name, kwargs=wanted)
        except NoReverseMatch:
            continue
    raise AssertionError(f"what does {name} ask for?")
