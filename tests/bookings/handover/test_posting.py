"""Plates by post: carrier, number, letter."""

from datetime import timedelta
from uuid import uuid4

import pytest

from bookings.changes.services import additions
from bookings.errors import BalanceOwed, HandoverRefused
from bookings.handover.models import Parcel
from bookings.handover.services import posting
from bookings.letters.mail import message
from bookings.orders.models import Client
from bookings.outbox import services as outbox
from bookings.outbox.models import Notice
from plates.bench.models import Plate
from tests import builders
from tests.builders import NOW
from tests.reading.letters import parsed, plain, words_of_html

pytestmark = pytest.mark.django_db

LATER = NOW + timedelta(days=12)


@pytest.fixture
def order():
    """A plate to be posted to Ines, ready and paid for with the post."""
    order = builders.a_paid_order(builders.a_day())
    post = builders.an_extra("By post", "post", 1250)
    additions.send_by_post(
        order_id=order.pk, post=post, address="Quay 3\n9000 Saltmarrow", country="PT", now=NOW
    )
    builders.pay(order, 5500)
    builders.made_plates(order)
    return order


def post(order, *, carrier="Gull Line", number="GL 77 PT", press=None):
    return posting.post(
        order_id=order.pk, carrier=carrier, number=number, press=press or uuid4(), operator=None, now=LATER
    )


def letters():
    return [message(notice) for notice in Notice.objects.filter(kind="posted").order_by("pk")]


def test_a_parcel_takes_the_plates_out_of_the_house_and_a_letter_tells_its_number(order):
    parcel = post(order)

    assert (Plate.objects.get().stage, parcel.handover.to) == ("handed_over", "post")
    [letter] = letters()
    assert letter.subject == "Your plates are on their way"
    assert "Carrier: Gull Line\nNumber of the parcel: GL 77 PT\n" in letter.body
    assert "- Plate 1, quarter" in letter.body


def test_the_letter_says_the_same_words_in_both_forms(order):
    post(order)

    letter = parsed(Notice.objects.get(kind="posted"))

    assert words_of_html(letter) == [word for word in plain(letter).split() if word != "-"]


def test_the_same_press_again_posts_nothing_again(order):
    press = uuid4()

    assert post(order, press=press).pk == post(order, press=press).pk
    assert (Parcel.objects.count(), len(letters())) == (1, 1)


def test_a_number_that_was_put_right_is_told_anew_and_once(order):
    parcel = post(order)
    for _ in range(2):
        posting.correct(parcel_id=parcel.pk, carrier="Gull Line", number="GL 78 PT", now=LATER)

    assert ["GL 78 PT" in letter.body for letter in letters()] == [True, True]
    assert Notice.objects.filter(kind="posted").count() == 2


def test_nothing_is_posted_while_money_is_owed(order):
    builders.pay(order, -1)

    with pytest.raises(BalanceOwed, match=r"^€0\.01 is still owed"):
        post(order)


def test_nothing_is_posted_without_an_address(order):
    Client.objects.update(address="")

    with pytest.raises(HandoverRefused, match=rf"^There is no address for order {order.reference}\."):
        post(order)


def test_nothing_is_posted_that_is_not_ready(order):
    post(order)

    with pytest.raises(HandoverRefused, match=r"is ready\. Finish it first\.$"):
        post(order)


def test_the_letter_that_plates_are_ready_does_not_ask_who_has_them_posted_to_come(order):
    outbox.queue(order=order, kind="ready", due_at=LATER)

    body = message(Notice.objects.get(kind="ready")).body

    assert "A letter with the number of the parcel follows." in " ".join(body.split())
    assert "What to bring" not in body
    assert order.pickup_code[:4] not in body
