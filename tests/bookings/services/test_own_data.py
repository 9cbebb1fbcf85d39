"""A client's say about what is kept: answers, and being forgotten.

Outside: GDPR Art. 17 (erasure; 17(3)(b) leaves what the law asks to be kept), as read in quality-bars s.2.12.
"""

from datetime import UTC, datetime

import pytest

from bookings.errors import NotErased
from bookings.models import Client, Consent, ConsentPurpose, Invoice
from bookings.selectors.own_data import answers
from bookings.services import invoices, notices, own_data, sittings
from plates.models import PlateFacts, Stage
from plates.services import facts
from tests import builders
from tests.builders import NOW
from tests.plates.test_pictures import a_picture

pytestmark = pytest.mark.django_db

EVENING = datetime(2026, 11, 28, 20, 0, tzinfo=UTC)


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
    facts.keep_picture(plate_id=plate.pk, content=a_picture(), operator=None, now=NOW)

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
