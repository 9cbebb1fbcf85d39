"""Letters over a real connection: a server that refuses, hangs, or answers 4xx and 5xx, and one that takes them.

Outside: RFC 5321 (replies) and RFC 3463 (their details), from memory; the client is Python's own smtplib.
"""

import email
from datetime import time, timedelta
from email import policy

import pytest
from django.db import connection
from icalendar import Calendar

from bookings.letters.services import sending as notices
from bookings.orders.models import Order
from bookings.outbox import services as outbox
from bookings.outbox.models import MailAway, Notice, NoticeKind
from tests import builders
from tests.bookings.letters.smtp_server import DROP, HANG, in_use
from tests.builders import NOW
from tests.builders.letters import an_order_without_letters, three_letters
from tests.reading.letters import calendar_part

pytestmark = pytest.mark.django_db

SECOND, MINUTE = timedelta(seconds=1), timedelta(minutes=1)


@pytest.fixture
def server(settings, monkeypatch):
    with in_use(settings, monkeypatch) as server:
        yield server


@pytest.fixture
def order():
    return an_order_without_letters()


@pytest.fixture
def waiting(order):
    return three_letters(order)


def refuse(server, settings):
    settings.EMAIL_PORT = 1  # nobody listens there


def says(**replies):
    return lambda server, settings: server.says.update(replies)


AWAY = {
    "refused": refuse,
    "silent": says(greeting=HANG),
    "silent after the letter": says(body=HANG),
    "closing": says(greeting="421 come back later"),
    "not today": says(greeting="554 no service here"),
    "sender not now": says(mail="451 try again"),
    "recipient not now": says(rcpt="451 greylisted, try again"),
    "policy": says(rcpt="550 5.7.1 relaying denied"),
    "letter not now": says(body="452 disk full"),
    "gone": says(data=DROP),
}


def message_ids(server):
    parsed = [email.message_from_bytes(each, policy=policy.default) for each in server.taken]
    return [str(each["Message-ID"]).strip() for each in parsed]


@pytest.mark.parametrize("how", AWAY)
def test_letters_wait_for_the_server_and_leave_within_a_minute_of_its_return(server, settings, waiting, how):
    AWAY[how](server, settings)
    rounds = [notices.send_due(now=NOW + 30 * SECOND * number) for number in range(3)]
    settings.EMAIL_PORT = server.port
    server.says.clear()

    # Looked at every thirty seconds at the slowest.
    after = [notices.send_due(now=NOW + 60 * SECOND + each * SECOND) for each in (30, 60)]

    assert (sum(rounds), sum(after)) == (0, 3)
    assert sorted(message_ids(server)) == sorted(letter.message_id for letter in waiting)
    assert not Notice.objects.exclude(given_up_at=None).exists()
    assert not MailAway.objects.exists()


def test_who_hangs_is_waited_for_once_and_not_once_a_letter(server, waiting):
    server.says["greeting"] = HANG

    for number in range(4):
        notices.send_due(now=NOW + number * SECOND)

    # At once, and after five seconds again: three looks fall into the pause.
    assert server.calls == 1
    assert set(Notice.objects.filter(sent_at=None).values_list("tries", "due_at", "claimed_until")) == {
        (0, NOW, None)
    }


def test_the_pauses_grow_to_twenty_seconds(server, waiting):
    server.says["greeting"] = "421 not now"
    pauses, now = [], NOW
    for _ in range(5):
        notices.send_due(now=now)
        again = MailAway.objects.get().try_again_at
        pauses.append((again - now) // SECOND)
        now = again

    assert pauses == [5, 10, 20, 20, 20]


def test_after_an_outage_they_leave_in_their_order(server, waiting):
    server.says["mail"] = "451 not now"
    notices.send_due(now=NOW)
    server.says.clear()
    MailAway.objects.update(tries=3)  # the first of the three is tried again

    notices.send_due(now=NOW + MINUTE)

    assert message_ids(server) == [letter.message_id for letter in waiting]


def test_one_letter_that_breaks_the_talk_holds_no_other_one_up(server, waiting):
    bad = waiting[0].message_id
    server.says["body"] = lambda letter: DROP if bad in letter else "250 taken"

    for number in range(3):
        notices.send_due(now=NOW + 30 * SECOND * number)

    assert sorted(message_ids(server)) == sorted(letter.message_id for letter in waiting[1:])
    assert Notice.objects.get(message_id=bad).tries > 0


def test_a_server_that_goes_away_in_the_middle_is_waited_for_at_most_twice(server, order):
    for each in range(8):
        outbox.queue(order=order, kind=NoticeKind.CONFIRMED, due_at=NOW, occasion=f"letter {each}")
    server.says["greeting"] = lambda _: "220 ready" if server.calls <= 2 else HANG

    sent = notices.send_due(now=NOW)

    assert (sent, server.calls) == (2, 4)


@pytest.mark.django_db(transaction=True)
def test_a_place_is_sold_while_the_mail_server_hangs(server, settings):
    settings.EMAIL_TIMEOUT = 20
    day = builders.a_day()
    builders.a_paid_order(day)
    seen = []

    def sell():
        """In the server's thread; it hangs up once the place is sold."""
        builders.a_placed_order(day, at=time(12))
        connection.close()
        seen.append("sold")
        server.over.set()

    server.says["greeting"], server.while_hanging = HANG, sell

    notices.send_due(now=NOW)
    seen.append("the talk is over")

    assert seen == ["sold", "the talk is over"]
    assert Order.objects.filter(placed_at__isnull=False).count() == 2
    assert MailAway.objects.get().error.startswith("SMTPServerDisconnected")


def test_a_letter_arrives_as_it_was_written(server):
    """Line ends and lengths on the wire: RFC 5322 s.2.1.1, RFC 5545 s.3.1."""
    venue = builders.a_venue(
        name="Praça dos Ganchos e das Âncoras de Saltmarrow", finding_it="À direita. " * 30
    )
    order = builders.a_paid_order(builders.a_day(venue=venue), name="Zoë Çelik")
    notices.send_due(now=NOW)
    [raw] = [each for each in server.taken if b"text/calendar" in each]

    lines = raw.split(b"\r\n")
    assert not any(b"\n" in line or b"\r" in line for line in lines)
    assert max(map(len, lines)) <= 998
    first, last = lines.index(b"BEGIN:VCALENDAR"), lines.index(b"END:VCALENDAR")
    assert max(map(len, lines[first : last + 1])) <= 75
    letter = email.message_from_bytes(raw, policy=policy.default)
    event = Calendar.from_ical(calendar_part(letter).get_payload(decode=True)).events[0]
    assert event["description"] == venue.finding_it
    assert event.start == order.sitting.bench_job.starts_at
    assert list(letter.defects) == []
