"""What is put before the owner of letters that do not leave: an address where nobody is, and a server long away."""

from datetime import timedelta

import pytest
from django.urls import reverse

from bookings.day.selectors.alerts import open_troubles
from bookings.letters.services import sending as notices
from bookings.orders.models import Client
from bookings.outbox import services as outbox
from bookings.outbox.models import MailAway, Notice, NoticeKind
from tests import builders
from tests.bookings.letters.smtp_server import in_use
from tests.builders import NOW
from tests.builders.letters import an_order_without_letters, three_letters

pytestmark = pytest.mark.django_db

MINUTE = timedelta(minutes=1)


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


@pytest.fixture
def photographer(client):
    client.force_login(builders.an_operator())
    return client


class TestADeadAddress:
    @pytest.fixture(autouse=True)
    def _refused(self, server, order):
        outbox.queue(order=order, kind=NoticeKind.CONFIRMED, due_at=NOW)
        server.says["rcpt"] = lambda said: "550 5.1.1 no such user" if "ines@" in said else "250 go on"
        notices.send_due(now=NOW)

    def test_the_letter_is_given_up_at_once_and_put_before_the_owner(self):
        [letter] = open_troubles(now=NOW).unsent

        assert (letter.tries, letter.dead_address, letter.given_up_at) == (1, True, NOW)
        assert letter.last_error == "SMTPRecipientsRefused: 550 5.1.1 no such user"
        assert open_troubles(now=NOW).mail_away is None

    def test_the_queue_says_what_to_do(self, photographer, order):
        page = photographer.get(reverse("studio:day", args=[order.sitting.day_id])).content.decode()

        assert 'Nobody is at <span class="text-break">ines@example.org</span>' in page
        assert reverse("studio:letters_again", args=[order.reference]) in page

    def test_with_another_address_it_goes_out_at_once(self, photographer, order, server):
        page = reverse("studio:letters_again", args=[order.reference])
        shown = photographer.get(page).content.decode()

        answer = photographer.post(page, {"email": "ines.madrugada@example.org"}, follow=True)

        assert "550 5.1.1 no such user" in shown
        assert "1 letter goes out again." in answer.content.decode()
        letter = Notice.objects.get(kind="confirmed")
        assert notices.send_due(now=letter.due_at) == 1
        assert b"ines.madrugada@example.org" in server.taken[0]
        assert not open_troubles(now=letter.due_at)

    def test_no_address_changes_nothing(self, photographer, order):
        page = reverse("studio:letters_again", args=[order.reference])

        answer = photographer.post(page, {"email": "ines at example"})

        assert answer.status_code == 400
        assert "Enter a valid email address." in answer.content.decode()
        assert Client.objects.get().email == "ines@example.org"


def test_a_server_that_is_away_for_long_is_put_before_the_owner(server, waiting, photographer, order):
    server.says["greeting"] = "554 no service here"
    notices.send_due(now=NOW)

    troubles = [open_troubles(now=NOW + each * MINUTE).mail_away for each in (4, 5)]

    assert troubles == [None, MailAway.objects.get()]
    page = photographer.get(reverse("studio:day", args=[order.sitting.day_id])).content.decode()
    assert "The mail server has taken no letter since Friday 20 November 2026, 09:00." in page


def test_nobody_is_told_of_a_server_that_no_letter_waits_for(server, waiting, order):
    server.says["greeting"] = "554 no service here"
    notices.send_due(now=NOW)
    Notice.objects.update(withdrawn_at=NOW)
    told = open_troubles(now=NOW + 5 * MINUTE).mail_away
    outbox.queue(order=order, kind=NoticeKind.READY, due_at=NOW + 60 * MINUTE)

    notices.send_due(now=NOW + 60 * MINUTE)

    assert (told, MailAway.objects.get().since) == (None, NOW + 60 * MINUTE)
