"""The desk: a code leads to its order, plates go into hands or to the post."""

from datetime import timedelta
from uuid import uuid4

import pytest
from django.urls import reverse

from bookings.changes.services import additions
from bookings.handover import papers as packing_slip
from bookings.handover.models import Handover, Parcel
from bookings.handover.services import handing_over as handover
from bookings.handover.services import pickup
from bookings.orders.models import Client
from bookings.outbox.models import Notice
from plates.bench.models import Plate
from tests import builders
from tests.builders import NOW
from tests.reading.pages import Page
from tests.reading.papers import flowing

pytestmark = pytest.mark.django_db

DESK = "/studio/hand-over/"


@pytest.fixture
def order(day):
    """A plate that is ready and paid for."""
    order = builders.a_paid_order(day, amount=8500)
    builders.made_plates(order)
    return order


@pytest.fixture
def by_post(order):
    post = builders.an_extra("By post", "post", 1250)
    additions.send_by_post(order_id=order.pk, post=post, address="Quay 3\nPorto", country="PT", now=NOW)
    builders.pay(order, 1250)
    return order


def at(name, order):
    return reverse(f"studio:{name}", args=[order.reference])


def test_a_code_that_is_scanned_or_typed_leads_to_its_order_with_the_code_filled_in(photographer, order):
    answer = photographer.get(DESK, {"code": order.pickup_code.lower()}, follow=True)

    page = Page(answer)
    assert answer.redirect_chain[0][0] == f"{at('hand_over', order)}?code={order.pickup_code}"
    assert page.fields["code"] == order.pickup_code
    assert "Hand over to Ines Madrugada" in page.text


def test_a_code_of_nobody_is_told(photographer, order):
    answer = photographer.get(DESK, {"code": "nobody<b>"})

    assert answer.status_code == 404
    assert "“nobody<b>” opens nothing." in Page(answer).text


def test_the_plates_are_handed_over_and_the_order_tells_how(photographer, order):
    sent = {"to": "client", "code": order.pickup_code, "signed": "Ines M.", "note": "", "press": uuid4()}

    answer = photographer.post(at("hand_over", order), sent)

    assert answer.url == at("order", order)
    assert (
        "Plate 1, 20 Nov 2026: The client, against the code, signed by Ines M."
        in Page(photographer.get(answer.url)).text
    )


def test_a_refusal_is_told_and_keeps_what_was_typed(photographer, order):
    sent = {"to": "client", "code": "WRONG", "signed": "Ines M.", "press": uuid4()}

    answer = photographer.post(at("hand_over", order), sent)

    page = Page(answer)
    assert (answer.status_code, page.fields["signed"]) == (400, "Ines M.")
    assert page.errors == [f"That is not the code of order {order.reference}, so nothing was handed over."]
    assert Plate.objects.get().stage == "ready"


def test_only_who_was_named_can_be_chosen(photographer, order):
    sent = {"to": "named", "code": order.pickup_code, "signed": "T.", "press": uuid4()}
    assert photographer.post(at("hand_over", order), sent).status_code == 400

    handover.name_person(order_id=order.pk, name="Tiago Faria", now=NOW)

    assert "Tiago Faria may collect these plates too" in Page(photographer.get(at("hand_over", order))).text
    assert photographer.post(at("hand_over", order), sent).status_code == 302


def test_what_is_owed_stands_beside_the_form(photographer, day):
    order = builders.a_paid_order(day)
    builders.made_plates(order)

    text = Page(photographer.get(at("hand_over", order))).text

    assert "€42.50 still to pay. Until it is paid nothing leaves the house." in text


def test_the_desk_tells_apart_who_collects_who_has_them_posted_and_who_has_not_come(
    photographer, order, clock
):
    assert "To be collected Ines Madrugada, " in Page(photographer.get(DESK)).text
    pickup.announce_ready(now=NOW)
    Notice.objects.filter(kind="ready").update(sent_at=NOW - timedelta(days=90))

    assert "Not collected in the agreed time" in Page(photographer.get(DESK)).text


def test_a_parcel_is_sent_and_its_number_can_be_put_right(photographer, by_post):
    assert f"{at('post', by_post)}" in Page(photographer.get(DESK)).links
    sent = {"carrier": "Gull Line", "number": "GL 77", "press": uuid4()}
    photographer.post(at("post", by_post), sent)
    parcel = Parcel.objects.get()
    assert "Gull Line GL 77" in Page(photographer.get(at("order", by_post))).text

    photographer.post(reverse("studio:parcel", args=[parcel.pk]), sent | {"number": "GL 78"})

    parcel.refresh_from_db()
    assert (parcel.number, Notice.objects.filter(kind="posted").count()) == ("GL 78", 2)


def test_a_parcel_without_a_number_is_not_sent(photographer, by_post):
    answer = photographer.post(at("post", by_post), {"carrier": "Gull Line", "press": uuid4()})

    assert (answer.status_code, Handover.objects.count()) == (400, 0)
    assert "Fill in: Number of the parcel." in Page(answer).errors


def test_the_page_of_the_post_shows_where_it_goes_and_where_an_address_is_entered(photographer, by_post):
    assert "Quay 3 Porto Portugal" in Page(photographer.get(at("post", by_post))).text

    Client.objects.update(address="")

    assert at("made_out_to", by_post) in Page(photographer.get(at("post", by_post))).links


def test_the_packing_slip_says_what_lies_in_the_parcel_and_no_price(by_post):
    text = flowing(packing_slip.packing_slip_pdf(by_post, now=NOW))

    assert f"Packing slip {by_post.reference}" in text
    assert "Ines Madrugada" in text
    assert "Number 1 quarter, 82.6 × 108.0 mm" in text
    assert "€" not in text


def test_the_pickup_notice_carries_the_code_in_signs_and_dots(photographer, order):
    answer = photographer.get(at("pickup_notice", order))

    code = f"{order.pickup_code[:4]}-{order.pickup_code[4:]}"
    assert f"Code {code}" in flowing(answer.content) or code in flowing(answer.content)


def test_an_order_that_nobody_placed_is_not_handed_over(photographer, day):
    assert photographer.get(at("hand_over", builders.a_held_order(day))).status_code == 404
