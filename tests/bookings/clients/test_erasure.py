"""Being forgotten, by canaries: strings that occur nowhere else are put into every field a client can fill in, and
after the erasure every column of every table, every file and every log is searched for them.

Outside: GDPR Art. 17 (erasure; 17(3)(b) leaves what the law asks to be kept), as read in quality-bars s.2.12.
"""

import logging
import re
from datetime import time, timedelta
from pathlib import Path
from uuid import uuid4

import pytest
import time_machine
from django.conf import settings as site
from django.contrib.sessions.models import Session
from django.db import connection
from django.urls import reverse

from bookings.access import links as step_up_links
from bookings.access import services as step_up
from bookings.access.models import Purpose, StepUp
from bookings.invoices.services import issuing as invoices
from bookings.letters.services import sending as notices
from bookings.orders import links
from bookings.orders.models import Order
from bookings.vouchers.models import Voucher
from bookings.vouchers.services import selling as vouchers
from bookings.waitlist.models import Waiting
from plates.bench.models import PlateSize, Stage
from plates.ledger.services import facts
from tests import builders
from tests.bookings.clients.canaries import CANARY, LATER, MAIL, canary
from tests.builders import NOW
from tests.plates.ledger.test_pictures import a_picture

pytestmark = pytest.mark.django_db(transaction=True)

DETAILS = {
    "name": canary("name"),
    "email": MAIL,
    "phone": canary("phone"),
    "consent_show": "on",
    "cautions": "on",
}
GIFT = {
    "amount": "50",
    "buyer_name": canary("buyer"),
    "buyer_email": MAIL.upper(),
    "for_name": canary("for"),
    "message": canary("message"),
}
MADE_OUT_TO = {
    "company": canary("company"),
    "address": canary("address"),
    "country": "ES",
    "tax_number": CANARY,
}
WAITS = {"name": canary("waits"), "email": MAIL, "earliest": "10:00", "latest": "11:00"}


@pytest.fixture(params=["an invoice", "no invoice"])
def invoiced(request):
    return request.param == "an invoice"


@pytest.fixture
def clock():
    with time_machine.travel(NOW, tick=False) as moved:
        yield moved


@pytest.fixture
def letters(settings):
    """Letters are written to files beside the rows, as the embedded site does."""
    settings.EMAIL_BACKEND = "django.core.mail.backends.filebased.EmailBackend"
    settings.EMAIL_FILE_PATH = Path(site.DATA_DIR) / "mail"


def a_life_in_the_studio(client, clock, invoiced):
    """Everything a client can do, with canaries in every field; return the order."""
    day = builders.a_day(bench=builders.a_bench(sitters_at_once=1))
    short = {"closes": time(11), "racks_empty_by": time(14), "start_every": 60}
    full = builders.a_day(on=builders.SATURDAY + timedelta(days=7), bench=day.bench_day.bench, **short)
    builders.a_paid_order(full, name="Wren Achterberg", email="wren@example.org")
    builders.an_extra("Posted", "post", 900)
    wish = {f"size_{PlateSize.objects.get(name='quarter').pk}": "1"}
    order = builders.a_held_order(day)
    client.post(reverse("details", args=[links.checkout_token(order)]), DETAILS)
    client.post(reverse("give_voucher"), GIFT | {"key": str(uuid4())})
    client.post(reverse("wait"), wish | WAITS | {"key": str(uuid4()), "day": full.pk})
    notices.send_due(now=NOW + timedelta(minutes=5))
    _changed(client, order)
    _paid(order)
    clock.move_to(LATER)
    builders.made_plates(order, stage=Stage.HANDED_OVER, now=LATER)
    plate = order.sitting.bench_job.slots.get().plates.get()
    facts.save_picture(plate_id=plate.pk, content=a_picture(), operator=None, now=LATER)
    if invoiced:
        invoices.issue(order_id=order.pk, now=LATER)
    notices.send_due(now=LATER)
    return Order.objects.get(pk=order.pk)


def _changed(client, order):
    """The plates are to be sent, and the studio notes whom the invoice is made out to."""
    _open(client, order, Purpose.CHANGE, NOW)
    client.post(reverse("mine_by_post"), {"address": canary("post"), "country": "ES"})
    client.force_login(builders.an_operator("clerk"))
    client.post(reverse("studio:made_out_to", args=[order.reference]), MADE_OUT_TO)
    client.logout()


def _paid(order):
    builders.pay(order, 9400)
    voucher = Voucher.objects.get()
    vouchers.record_money(voucher_id=voucher.pk, amount=5000, method="cash", reference="till", now=NOW)


def _open(client, order, purpose, now):
    asked = step_up.ask(order_id=order.pk, purpose=purpose, now=now)
    assert client.post(reverse("step_up", args=[step_up_links.token(asked)])).status_code == 302


def forgotten(client, order):
    """The client takes a copy of everything, then asks to be forgotten."""
    _open(client, order, Purpose.DATA, LATER)
    notices.send_due(now=LATER)
    assert client.get(reverse("mine_copy")).status_code == 200
    answer = client.post(reverse("mine_erase"), {"sure": "on"})
    assert answer.status_code == 302


def tables_with_canaries():
    """The tables that hold a canary in any column, as the database itself knows its tables."""
    found = set()
    with connection.cursor() as cursor:
        for table in connection.introspection.table_names(cursor):
            cursor.execute(f"SELECT * FROM {connection.ops.quote_name(table)}")
            if any(CANARY in str(value).casefold() for row in cursor.fetchall() for value in row):
                found.add(table)
    # A session is packed, so that it has to be read by those who packed it.
    if any(CANARY in str(session.get_decoded()).casefold() for session in Session.objects.all()):
        found.add("django_session")
    return found


def files_with_canaries():
    files = [file for file in Path(site.DATA_DIR).rglob("*") if file.is_file()]
    assert files
    return [file.name for file in files if CANARY.encode() in file.read_bytes().lower()]


def test_who_is_forgotten_is_found_in_issued_invoices_alone(client, clock, letters, invoiced, caplog):
    caplog.set_level(logging.DEBUG)
    order = a_life_in_the_studio(client, clock, invoiced)
    reached, written = tables_with_canaries(), files_with_canaries()

    forgotten(client, order)

    # A search that finds nothing before would pass on a site that never kept anything.
    assert reached >= {"bookings_client", "bookings_voucher", "bookings_waiting"}
    assert [name for name in written if name.endswith(".log")]
    assert tables_with_canaries() == ({"bookings_invoice"} if invoiced else set())
    rows = {"tests.sqlite3", "tests.sqlite3-wal"} if invoiced else set()
    # Each worker of the tests has rows of its own, under a name that tells which.
    assert {re.sub(r"_gw\d+", "", name) for name in files_with_canaries()} <= rows
    assert CANARY not in "\n".join(record.getMessage() for record in caplog.records).casefold()
    assert not StepUp.objects.filter(order=order).exists()
    assert (Waiting.objects.get().name, Voucher.objects.get().buyer_name) == ("", "")
