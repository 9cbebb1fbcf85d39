"""The form of the letters: who writes to whom, in which lines and parts.

Outside: RFC 5322 (one mailbox, one line a header) and RFC 3834 (Auto-Submitted), as read by Python's own parser.
"""

import re
from datetime import time
from urllib.parse import urlsplit

import pytest
from django.core import mail as outbox

from bookings.errors import NotPlaced
from bookings.letters import mail
from bookings.letters.services import sending as notices
from bookings.outbox.models import Notice, NoticeKind
from tests import builders
from tests.reading.letters import a_notice, calendar_part, parsed, plain, the_letter, words_of_html

pytestmark = pytest.mark.django_db

# Those that carry a paper, a parcel or a link of their own are looked at where they are written.
OF_THEIR_OWN = {NoticeKind.INVOICE, NoticeKind.VOUCHER, NoticeKind.STEP_UP, NoticeKind.POSTED}
ABOUT_AN_ORDER = [kind for kind in NoticeKind if kind not in OF_THEIR_OWN]
HOSTILE = [
    "Ines\r\nBcc: other@example.org",
    "Ines\nSubject: gone\n\nAnother letter",
    "Ines\rX-Added: yes",
    "Ines\u2028Bcc: other@example.org",
    # No NUL here: the form refuses it, and PostgreSQL could not hold it.
    "Ines\x01\x1b[31m Madrugada",
    'Ines" <other@example.org>, "Vaz',
    "Ines (other@example.org), Vaz; <x>",
    "Ines \\",
    "Zoë Çelik, Ltd. 写真館",
    "<script>alert(1)</script> & Ines",
    "I" * 120,
]


@pytest.fixture(autouse=True)
def _address(settings):
    settings.SITE_ADDRESS = "https://rooms.example.org"


@pytest.mark.parametrize("kind", ABOUT_AN_ORDER)
@pytest.mark.parametrize("paid", [0, 1000, 8500])
def test_plain_text_and_html_say_the_same_words(kind, paid):
    order = builders.a_paid_order(builders.a_day(), extras={builders.an_extra(amount=0): 2}, amount=paid)
    builders.made_plates(order)

    letter = parsed(a_notice(order, kind))

    assert words_of_html(letter) == [word for word in plain(letter).split() if word != "-"]


@pytest.mark.parametrize("kind", ABOUT_AN_ORDER)
def test_every_letter_goes_from_the_studio_to_the_client_and_says_that_a_machine_wrote_it(kind):
    order = builders.a_placed_order(builders.a_day(), name="Ines Madrugada", email="ines@example.org")
    notice = a_notice(order, kind)

    letter = parsed(notice)

    assert [(each.display_name, each.addr_spec) for each in letter["From"].addresses] == [
        ("Gannet Lane Plate Rooms", "rooms@example.org")
    ]
    assert [(each.display_name, each.addr_spec) for each in letter["To"].addresses] == [
        ("Ines Madrugada", "ines@example.org")
    ]
    assert letter["Message-ID"] == notice.message_id
    assert letter["Auto-Submitted"] == "auto-generated"
    assert letter["Subject"]


@pytest.mark.parametrize("kind", ABOUT_AN_ORDER)
def test_plain_lines_fit_a_narrow_window(kind):
    order = builders.a_placed_order(builders.a_day())

    letter = parsed(a_notice(order, kind))

    # A link is one word and is never broken.
    assert [line for line in plain(letter).splitlines() if len(line) > 72 and " " in line.strip()] == []
    assert "\n\n\n" not in plain(letter)


@pytest.mark.parametrize("name", HOSTILE)
def test_a_name_can_add_neither_a_header_nor_a_recipient(name):
    day = builders.a_day()
    innocent = parsed(a_notice(builders.a_placed_order(day, at=time(12)), NoticeKind.CONFIRMED))

    letter = parsed(a_notice(builders.a_placed_order(day, name=name), NoticeKind.CONFIRMED))

    assert [each.addr_spec for each in letter["To"].addresses] == ["ines@example.org"]
    assert letter["To"].addresses[0].display_name.isprintable()
    assert letter.keys() == innocent.keys()
    assert letter["Subject"] == innocent["Subject"]
    assert [part.get_content_type() for part in letter.walk()] == [
        part.get_content_type() for part in innocent.walk()
    ]
    assert list(letter.defects) == []


def test_a_name_with_accents_and_a_comma_arrives_whole():
    order = builders.a_placed_order(builders.a_day(), name='Zoë "Zé" Çelik, the elder')

    letter = parsed(a_notice(order, NoticeKind.CONFIRMED))

    assert letter["To"].addresses[0].display_name == 'Zoë "Zé" Çelik, the elder'
    assert plain(letter).startswith('Dear Zoë "Zé" Çelik, the elder,')


def test_a_name_is_shown_and_never_run_in_html():
    order = builders.a_placed_order(builders.a_day(), name="<script>alert(1)</script>")

    letter = parsed(a_notice(order, NoticeKind.CONFIRMED))

    assert "Dear &lt;script&gt;alert(1)&lt;/script&gt;," in letter.get_body(("html",)).get_content()
    assert "Dear <script>alert(1)</script>," in plain(letter)


def test_no_letter_fetches_anything_when_it_is_opened():
    order = builders.a_placed_order(builders.a_day())

    for kind in ABOUT_AN_ORDER:
        content = parsed(a_notice(order, kind)).get_body(("html",)).get_content()
        assert (
            re.findall(r"<(?:img|link|script|iframe|object|audio|video)\b|url\(|@import|\bsrc=", content)
            == []
        )


def test_the_link_of_a_letter_shows_nothing_personal(client):
    order = builders.a_paid_order(
        builders.a_day(), name="Ines Madrugada", email="ines@example.org", phone="+351 555 010 011"
    )
    [link] = re.findall(r"https://\S+", plain(the_letter(order, NoticeKind.CONFIRMED)))

    page = client.get(urlsplit(link).path, headers={"host": "localhost"})

    assert page.status_code == 200
    shown = page.content.decode().lower()
    assert order.reference.lower() in shown
    assert [word for word in ("ines", "madrugada", "010 011") if word in shown] == []


def test_a_repeat_of_a_letter_is_the_same_letter():
    order = builders.a_paid_order(builders.a_day())
    notice = order.notices.get(kind=NoticeKind.CONFIRMED)

    first, second = parsed(notice), parsed(notice)

    assert first["Message-ID"] == second["Message-ID"]
    assert calendar_part(first).get_payload() == calendar_part(second).get_payload()


def test_an_order_without_a_name_has_nobody_to_write_to():
    order = builders.a_held_order(builders.a_day())
    notice = a_notice(order, NoticeKind.CONFIRMED)

    with pytest.raises(NotPlaced, match="there is nobody to write to"):
        mail.message(notice)


def test_due_letters_are_really_sent():
    order = builders.a_placed_order(builders.a_day())
    due_at = order.notices.get().due_at

    sent = notices.send_due(now=due_at)

    [letter] = outbox.outbox
    assert sent == 1
    assert letter.to == ['"Ines Madrugada" <ines@example.org>']
    assert Notice.objects.get().sent_at == due_at


def test_amounts_follow_the_studio_s_locale():
    order = builders.a_placed_order(builders.a_day())
    builders.a_studio(locale="de_DE")

    text = plain(the_letter(order, NoticeKind.DEPOSIT_DUE))

    assert "42,50\N{NO-BREAK SPACE}€" in text
