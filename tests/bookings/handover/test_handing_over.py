"""Plates into hands: whose, against what, and kept for good."""

import io
import json
import zipfile
from datetime import timedelta
from uuid import uuid4

import pytest
from django.db import DatabaseError, transaction

from bookings.changes.services import sittings
from bookings.clients import selectors as copies
from bookings.clients import services as own_data
from bookings.errors import BalanceOwed, HandoverRefused
from bookings.handover.models import HandedPlate, HandedTo, Handover, NamedPerson, Receipt
from bookings.handover.selectors import desk as selector
from bookings.handover.services import handing_over as handover
from bookings.handover.services import pickup
from bookings.orders.models import Order
from plates.bench.models import Plate, PlateSlot, Stage
from plates.ledger.services import undo
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

LATER = NOW + timedelta(days=12)


@pytest.fixture
def order():
    """Two plates, ready and paid for."""
    order = builders.a_paid_order(builders.a_day(), sizes=("quarter", "half"), amount=21000)
    builders.made_plates(order)
    return order


def hand_over(order, *, to=HandedTo.CLIENT, code=None, signed="Ines M.", note="", press=None, now=LATER):
    return handover.hand_over(
        order_id=order.pk,
        to=to,
        code=order.pickup_code if code is None else code,
        signed=signed,
        note=note,
        press=press or uuid4(),
        operator=None,
        now=now,
    )


def name_tiago(order, name="Tiago Faria"):
    return handover.name_person(order_id=order.pk, name=name, now=NOW)


def stages():
    return set(Plate.objects.values_list("stage", flat=True))


def test_every_order_has_a_code_of_its_own_that_can_be_read_aloud(order):
    other = builders.a_paid_order(builders.a_day(on=LATER.date()))

    assert len({order.pickup_code, other.pickup_code, order.reference, other.reference}) == 4
    assert set(order.pickup_code + other.pickup_code).isdisjoint("01ILO")


def test_ready_plates_go_to_the_client_against_the_code(order):
    given = hand_over(order)

    assert (given.to, given.by_code, given.at, given.receipt.signed) == ("client", True, LATER, "Ines M.")
    assert (stages(), selector.handed(order)[0].numbers) == ({"handed_over"}, [1, 2])


def test_the_same_press_again_hands_nothing_over_again(order):
    press = uuid4()

    first, second = hand_over(order, press=press), hand_over(order, press=press)

    assert (first.pk, HandedPlate.objects.count()) == (second.pk, 2)


@pytest.mark.parametrize("typed", ["{} ", " {}", "{}"], ids=["space behind", "space before", "as it is"])
def test_a_code_is_read_as_people_type_it(order, typed):
    code = f"{order.pickup_code[:4]}-{order.pickup_code[4:]}".lower()

    assert hand_over(order, code=typed.format(code)).by_code


def test_only_what_is_ready_is_handed_over(order):
    waits = builders.a_paid_order(builders.a_day(on=LATER.date()), sizes=("quarter", "half"), amount=21000)
    builders.made_plate(PlateSlot.objects.filter(job=waits.sitting.bench_job_id)[0], Stage.READY, NOW)

    given = hand_over(waits)

    assert [each.event.plate.number for each in given.plates.all()] == [3]


REFUSED = [
    pytest.param({"code": "23456789"}, "That is not the code of order", id="wrong code"),
    pytest.param({"code": "", "note": ""}, "Ask for the code, or note how you know", id="client unknown"),
    pytest.param({"signed": "", "note": ""}, "Type the name of who signs", id="no signature"),
    pytest.param({"to": HandedTo.NAMED}, "The client has named nobody.", id="nobody named"),
    pytest.param({"to": HandedTo.POST}, "Plates go to the post with a carrier", id="post without a number"),
]


@pytest.mark.parametrize(("asked", "sentence"), REFUSED)
def test_to_whom_plates_are_not_given(order, asked, sentence):
    with pytest.raises(HandoverRefused) as refusal:
        hand_over(order, **asked)

    assert str(refusal.value).startswith(sentence)
    assert (stages(), Handover.objects.count()) == ({"ready"}, 0)


def test_nothing_leaves_while_a_cent_is_owed():
    order = builders.a_paid_order(builders.a_day(), amount=8499)
    builders.made_plates(order)

    with pytest.raises(BalanceOwed, match=r"^€0\.01 is still owed"):
        hand_over(order)

    assert stages() == {"ready"}


def test_without_a_ready_plate_there_is_nothing_to_hand_over(order):
    hand_over(order)

    with pytest.raises(HandoverRefused, match=rf"^No plate of order {order.reference} is ready\."):
        hand_over(order)


def test_without_the_code_a_client_who_is_known_is_noted(order):
    given = hand_over(order, code="", signed="", note="Known since the fair, showed her passport.")

    assert (given.by_code, given.receipt.note) == (False, "Known since the fair, showed her passport.")


def test_a_named_person_is_given_them_against_the_code(order):
    name_tiago(order)

    assert hand_over(order, to=HandedTo.NAMED, signed="T. Faria").to == "named"


def test_a_named_person_without_the_code_is_not_whatever_is_noted(order):
    name_tiago(order)

    with pytest.raises(HandoverRefused, match=r"^Ask for the code: without it"):
        hand_over(order, to=HandedTo.NAMED, code="", note="Says he is Tiago.")


def test_who_was_named_before_somebody_else_no_longer_is(order):
    name_tiago(order)
    name_tiago(order, "Rosa Faria")

    assert selector.named_person(order).name == "Rosa Faria"
    assert NamedPerson.objects.filter(taken_back_at=None).count() == 1


def test_the_same_name_twice_is_named_once(order):
    assert name_tiago(order).pk == name_tiago(order).pk


def test_a_name_taken_back_opens_nothing(order):
    name_tiago(order)
    handover.remove_named_person(order_id=order.pk, now=NOW)

    with pytest.raises(HandoverRefused, match=r"^The client has named nobody\."):
        hand_over(order, to=HandedTo.NAMED)


def test_nobody_is_named_once_all_plates_have_gone(order):
    hand_over(order)

    with pytest.raises(HandoverRefused, match=r"^No plate of yours waits at the studio any more"):
        name_tiago(order)


def test_nobody_is_named_for_a_cancelled_order():
    order = builders.a_paid_order(builders.a_day())
    sittings.cancel(order_id=order.pk, now=NOW)

    with pytest.raises(HandoverRefused):
        name_tiago(order)


@pytest.mark.parametrize("row", [Handover, HandedPlate], ids=lambda row: row.__name__)
def test_what_was_handed_over_is_never_changed_nor_deleted(order, row):
    hand_over(order)

    with pytest.raises(DatabaseError, match="append-only"), transaction.atomic():
        row.objects.update(id=99)
    with pytest.raises(DatabaseError, match="append-only"), transaction.atomic():
        row.objects.all()._raw_delete("default")


def test_a_press_in_the_queue_is_kept_as_a_handover_too(order):
    plate = Plate.objects.first()

    pickup.move_on(plate_id=plate.pk, stage="handed_over", operator=None, now=LATER)
    pickup.move_on(plate_id=plate.pk, stage="handed_over", operator=None, now=LATER)

    [given] = selector.handed(order)
    assert (given.numbers, given.handover.by_code) == ([1], False)


def test_a_handover_whose_press_was_taken_back_no_longer_holds(order):
    plate = Plate.objects.first()
    pickup.move_on(plate_id=plate.pk, stage="handed_over", operator=None, now=LATER)

    undo.undo_press(plate_id=plate.pk, operator=None, now=LATER)

    assert (selector.handed(order), Handover.objects.count()) == ([], 1)
    assert hand_over(order).plates.count() == 2


def test_who_is_forgotten_leaves_no_name_at_the_desk(order):
    name_tiago(order)
    hand_over(order, to=HandedTo.NAMED, signed="T. Faria", note="for Ines")

    own_data.erase(client_id=order.client_id, now=LATER)

    assert not NamedPerson.objects.exists()
    assert list(Receipt.objects.values_list("signed", "note")) == [("", "")]
    assert selector.handed(Order.objects.get(pk=order.pk))[0].numbers == [1, 2]


def test_a_code_leads_to_its_order_and_no_other_text_to_any(order):
    assert selector.by_code(order.pickup_code.lower()) == order
    assert [selector.by_code(typed) for typed in ("", "-", order.reference, "x" * 500)] == [None] * 4


def test_a_copy_of_all_that_is_kept_has_the_handovers_in_it(order):
    name_tiago(order)
    hand_over(order, to=HandedTo.NAMED, signed="T. Faria")
    client = Order.objects.get(pk=order.pk).client

    with zipfile.ZipFile(io.BytesIO(copies.copy_of(client))) as packed:
        kept = json.loads(packed.read("kept.json"))["orders"][0]

    assert [named["name"] for named in kept["named_to_collect"]] == ["Tiago Faria"]
    assert [given["receipt"]["signed"] for given in kept["handovers"]] == ["T. Faria"]
