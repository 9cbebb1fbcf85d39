"""A client's say about what is kept: answers, and being forgotten.

Outside: GDPR Art. 17 (erasure; 17(3)(b) leaves what the law asks to be kept), as read in quality-bars s.2.12.
"""

from datetime import UTC, datetime

import pytest

from bookings.changes.services import sittings
from bookings.clients import services as own_data
from bookings.clients.selectors import answers
from bookings.errors import InvoiceRefused, NotErased
from bookings.invoices.models import Invoice
from bookings.invoices.services import issuing as invoices
from bookings.letters.services import sending as notices
from bookings.orders.models import Client, Consent, ConsentPurpose
from bookings.orders.services import clients as people
from bookings.outbox.files import forget_letters
from plates.bench.models import PlateFacts, Stage
from plates.ledger.services import facts
from tests import builders
from tests.builders import NOW
from tests.plates.ledger.test_pictures import a_picture

pytestmark = pytest.mark.django_db

EVENING = datetime(2026, 11, 28, 20, 0, tzinfo=UTC)
TEN, NOON, TWO = (datetime(2026, 11, 28, hour, tzinfo=UTC) for hour in (10, 12, 14))


def collected_order(**details):
    order = builders.a_paid_order(builders.a_day(), amount=8500, **details)
    builders.made_plates(order, stage=Stage.HANDED_OVER)
    return order


def test_a_changed_answer_is_a_new_row_and_the_same_one_is_none():
    client = builders.a_paid_order(builders.a_day()).client
    given = answers(client)
    other = given | {ConsentPurpose.NEWS: not given[ConsentPurpose.NEWS]}
    before = Consent.objects.count()

    own_data.answer(client_id=client.pk, given=other, now=NOW)
    own_data.answer(client_id=client.pk, given=other, now=NOW)

    assert answers(client) == other
    assert Consent.objects.count() == before + 1


def test_who_is_forgotten_leaves_orders_money_and_plates_without_a_person():
    order = collected_order(name="Canary Nameson", email="canary@example.org", phone="+351 555 010 077")

    own_data.erase(client_id=order.client_id, now=EVENING)

    erased = Client.objects.get(pk=order.client_id)
    assert (erased.name, erased.email, erased.phone, erased.erased_at) == ("Erased", "", "", EVENING)
    assert order.payments.count() == 1
    assert not Consent.objects.filter(client=erased).exists()


def test_pictures_of_the_sitter_go_with_the_name():
    order = collected_order()
    plate = order.sitting.bench_job.slots.get().plates.get()
    facts.save_picture(plate_id=plate.pk, content=a_picture(), operator=None, now=NOW)

    own_data.erase(client_id=order.client_id, now=EVENING)

    assert PlateFacts.objects.get(plate=plate).picture == ""


def test_an_issued_invoice_keeps_its_buyer():
    order = collected_order(name="Canary Nameson")
    invoices.issue(order_id=order.pk, now=EVENING)

    own_data.erase(client_id=order.client_id, now=EVENING)

    assert Invoice.objects.get(order=order).buyer["name"] == "Canary Nameson"


def test_no_letter_goes_out_afterwards(mailoutbox):
    order = collected_order()
    own_data.erase(client_id=order.client_id, now=EVENING)
    sent = len(mailoutbox)

    notices.send_due(now=EVENING)

    assert len(mailoutbox) == sent


def test_a_sitting_that_is_to_come_keeps_the_name():
    order = builders.a_paid_order(builders.a_day(), amount=8500)

    with pytest.raises(NotErased, match=r"^A sitting of yours is still to come\."):
        own_data.erase(client_id=order.client_id, now=NOW)


def test_money_to_be_given_back_keeps_the_name():
    order = builders.a_paid_order(builders.a_day(), amount=8500)
    sittings.cancel(order_id=order.pk, now=NOW)

    with pytest.raises(NotErased, match=r"^Money is to be given back to you\."):
        own_data.erase(client_id=order.client_id, now=EVENING)


def test_money_that_is_owed_keeps_the_name():
    order = builders.a_paid_order(builders.a_day())

    with pytest.raises(NotErased, match=r"^Something is still to be paid\."):
        own_data.erase(client_id=order.client_id, now=EVENING)


def test_a_plate_that_waits_keeps_the_name():
    order = builders.a_paid_order(builders.a_day(), amount=8500)
    builders.made_plates(order)

    with pytest.raises(NotErased, match=r"^A plate of yours is still here\."):
        own_data.erase(client_id=order.client_id, now=EVENING)


def test_everything_under_one_address_is_forgotten_however_it_was_typed():
    day = builders.a_day()
    first, second = (
        builders.a_paid_order(day, at=at, amount=8500, email=email)
        for at, email in ((NOON, "ines@example.org"), (TWO, "Ines@Example.org"))
    )
    for order in (first, second):
        builders.made_plates(order, stage=Stage.HANDED_OVER)
    stranger = builders.a_paid_order(day, at=TEN, email="wren@example.org").client

    own_data.erase(client_id=first.client_id, now=EVENING)

    assert set(Client.objects.values_list("pk", "name")) == {
        (first.client_id, "Erased"),
        (second.client_id, "Erased"),
        (stranger.pk, stranger.name),
    }


def test_one_open_order_under_the_address_keeps_everything():
    day = builders.a_day()
    over = builders.a_paid_order(day, amount=8500)
    builders.made_plates(over, stage=Stage.HANDED_OVER)
    to_come = builders.a_paid_order(day, at=TWO, amount=8500)

    with pytest.raises(NotErased, match=r"^A sitting of yours is still to come\."):
        own_data.erase(client_id=over.client_id, now=NOON)

    assert not Client.objects.filter(erased_at__isnull=False).exists()
    assert Client.objects.get(pk=to_come.client_id).name == "Ines Madrugada"


def test_nobody_is_invoiced_or_noted_down_after_being_forgotten():
    order = collected_order()
    own_data.erase(client_id=order.client_id, now=EVENING)

    with pytest.raises(InvoiceRefused, match=r"asked to be forgotten; nobody is left to invoice\.$"):
        invoices.issue(order_id=order.pk, now=EVENING)
    with pytest.raises(InvoiceRefused, match=r"^This client asked to be forgotten"):
        people.make_out_to(order_id=order.pk, to=people.MadeOutTo(company="Harbour Prints"))


def test_a_letter_to_somebody_else_in_the_same_file_stays(settings, tmp_path):
    settings.EMAIL_BACKEND = "django.core.mail.backends.filebased.EmailBackend"
    settings.EMAIL_FILE_PATH = tmp_path
    to_wren, to_ines = (f'To: "{who}" <{who}@example.org>\n\nDear {who}\n' for who in ("wren", "Ines"))
    between = "-" * 79 + "\n"
    both, one = tmp_path / "a.log", tmp_path / "b.log"
    both.write_text(to_wren + between + to_ines + between)
    one.write_text(to_ines + between)

    forgotten = forget_letters(["ines@example.org"])

    assert (forgotten, both.read_text(), one.exists()) == (2, to_wren + between, False)
