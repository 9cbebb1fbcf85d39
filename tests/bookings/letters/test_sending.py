"""Letters as rows: sent at least once, never by two at once, and never lost without somebody being told."""

import smtplib
from datetime import timedelta

import pytest
from django.core import mail as outbox
from django.core.mail.backends.locmem import EmailBackend

from bookings.changes.services import sittings
from bookings.day.selectors.alerts import open_troubles
from bookings.letters.services import sending as notices
from bookings.orders.models import Order
from bookings.outbox import services as outbox_rows
from bookings.outbox.models import Notice, NoticeKind
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

SECOND = timedelta(seconds=1)
MINUTE = timedelta(minutes=1)


@pytest.fixture
def order():
    """A placed order whose own letter has been sent, so that a test sees only its own."""
    order = builders.a_placed_order(builders.a_day())
    Notice.objects.update(sent_at=NOW)
    return order


@pytest.fixture
def letter(order):
    """A letter that is due and stays true."""
    return outbox_rows.queue(order=order, kind=NoticeKind.CONFIRMED, due_at=NOW)


class NotNow(EmailBackend):
    """A mail server that takes no letter at the moment. Real connections are broken in `test_smtp.py`."""

    def send_messages(self, messages):
        raise smtplib.SMTPDataError(452, b"disk full")


@pytest.fixture
def full_server(monkeypatch):
    monkeypatch.setattr("django.core.mail.get_connection", lambda *_, **__: NotNow())


def stored(letter):
    return Notice.objects.get(pk=letter.pk)


def test_the_same_letter_queued_twice_is_one(order):
    first = outbox_rows.queue(order=order, kind=NoticeKind.READY, due_at=NOW)

    again = outbox_rows.queue(order=order, kind=NoticeKind.READY, due_at=NOW + MINUTE)

    assert again == first
    assert (again.due_at, again.message_id) == (NOW, first.message_id)


def test_letters_of_one_kind_about_different_occasions_are_two(order):
    for occasion in ("0", "1"):
        outbox_rows.queue(order=order, kind=NoticeKind.CONFIRMED, occasion=occasion, due_at=NOW)

    assert Notice.objects.filter(kind=NoticeKind.CONFIRMED).count() == 2


def test_a_due_letter_is_sent_once_under_its_own_message_id(letter):
    sent = [notices.send_due(now=NOW), notices.send_due(now=NOW + MINUTE)]

    assert sent == [1, 0]
    assert [each.extra_headers["Message-ID"] for each in outbox.outbox] == [letter.message_id]
    assert letter.message_id.startswith("<")
    assert letter.message_id.endswith("@127.0.0.1>")
    assert (stored(letter).sent_at, stored(letter).claimed_until) == (NOW, None)


def test_a_letter_is_not_sent_before_it_is_due(letter):
    assert notices.send_due(now=NOW - SECOND) == 0
    assert outbox.outbox == []


def test_a_letter_that_another_sender_has_in_hand_is_left_to_it(letter):
    Notice.objects.filter(pk=letter.pk).update(claimed_until=NOW + MINUTE)

    assert notices.send_due(now=NOW) == 0


def test_a_sender_that_died_lets_its_letter_go_after_forty_seconds(letter, monkeypatch):
    def die(notice):
        raise KeyboardInterrupt

    with monkeypatch.context() as dying:
        dying.setattr("bookings.letters.mail.message", die)
        with pytest.raises(KeyboardInterrupt):
            notices.send_due(now=NOW)

    assert notices.send_due(now=NOW + 39 * SECOND) == 0
    assert notices.send_due(now=NOW + 40 * SECOND) == 1


def test_two_senders_cannot_both_take_a_letter_in_hand(letter):
    taken = [notices._claim(letter.pk, NOW), notices._claim(letter.pk, NOW)]

    assert taken == [True, False]


def test_a_letter_that_is_not_taken_is_tried_often_and_after_an_hour_seldom(letter, full_server):
    waits = []
    for tries in (0, 1, 2, 3, 179, 180, 370):
        Notice.objects.filter(pk=letter.pk).update(tries=tries, due_at=NOW)
        notices.send_due(now=NOW)
        waits.append((stored(letter).due_at - NOW) // SECOND)

    assert waits == [5, 10, 20, 20, 20, 900, 900]
    assert stored(letter).last_error == "SMTPDataError: (452, b'disk full')"
    assert stored(letter).sent_at is None


def test_a_letter_that_failed_is_not_in_anyones_hand(letter, full_server):
    notices.send_due(now=NOW)

    assert stored(letter).claimed_until is None
    assert notices.send_due(now=NOW + 4 * SECOND) == 0


def test_after_two_days_of_tries_a_letter_is_left_to_the_owner(letter, full_server):
    Notice.objects.filter(pk=letter.pk).update(tries=371)

    notices.send_due(now=NOW)

    assert (stored(letter).tries, notices.send_due(now=NOW + timedelta(days=365))) == (372, 0)
    assert open_troubles(now=NOW).unsent == [letter]
    assert not stored(letter).dead_address


def test_until_then_it_still_goes_out_when_the_server_is_back(letter):
    Notice.objects.filter(pk=letter.pk).update(tries=371)

    assert notices.send_due(now=NOW) == 1
    assert not open_troubles(now=NOW)


def test_one_letter_that_is_not_taken_does_not_stop_the_others(order, letter, monkeypatch):
    outbox_rows.queue(order=order, kind=NoticeKind.CANCELLED, due_at=NOW + SECOND)

    class Fussy(EmailBackend):
        def send_messages(self, messages):
            if messages[0].extra_headers["Message-ID"] == letter.message_id:
                raise smtplib.SMTPDataError(451, b"not this one")
            return super().send_messages(messages)

    monkeypatch.setattr("django.core.mail.get_connection", lambda *_, **__: Fussy())

    assert notices.send_due(now=NOW + SECOND) == 1
    assert stored(letter).tries == 1


def test_a_letter_about_a_deposit_that_came_meanwhile_is_withdrawn():
    order = builders.a_placed_order(builders.a_day())
    builders.pay(order, 4250)

    sent = notices.send_due(now=NOW + 3 * MINUTE)

    asking, confirming = Notice.objects.order_by("id")
    assert sent == 1
    assert (asking.sent_at, asking.withdrawn_at) == (None, NOW + 3 * MINUTE)
    assert (confirming.kind, confirming.sent_at) == ("confirmed", NOW + 3 * MINUTE)


def test_of_a_cancelled_order_only_the_cancellation_is_told(order, letter):
    sittings.cancel(order_id=order.pk, now=NOW)

    notices.send_due(now=NOW)

    assert len(outbox.outbox) == 1
    assert Notice.objects.get(sent_at=NOW, kind="cancelled").order == order
    assert stored(letter).withdrawn_at == NOW


@pytest.mark.parametrize("still_needed", [True, False])
def test_a_new_time_is_asked_for_only_while_it_is_needed(order, still_needed):
    Order.objects.filter(pk=order.pk).update(needs_new_time=still_needed)
    letter = outbox_rows.queue(order=order, kind=NoticeKind.NEW_TIME, due_at=NOW)

    assert notices.send_due(now=NOW) == int(still_needed)
    assert (stored(letter).withdrawn_at is None) is still_needed
