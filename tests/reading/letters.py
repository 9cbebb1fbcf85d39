"""Letters of notices, parsed back with the standard library's `email`."""

import email
import html
import re
from email import policy

from bookings.letters import mail
from bookings.outbox import services as outbox
from bookings.outbox.models import Notice, NoticeKind
from tests import builders


def the_letter(order, kind, occasion=None):
    found = order.notices.filter(kind=kind)
    notice = found.get(occasion=occasion) if occasion is not None else found.get()
    return parsed(notice)


def parsed(notice):
    notice = Notice.objects.select_related("order__client").get(pk=notice.pk)
    return email.message_from_bytes(mail.message(notice).message().as_bytes(), policy=policy.default)


def plain(letter):
    return letter.get_body(("plain",)).get_content()


def flowing(letter):
    return " ".join(plain(letter).split())


def calendar_part(letter):
    [part] = [part for part in letter.walk() if part.get_content_type() == "text/calendar"]
    return part


def a_notice(order, kind):
    expected_at = builders.NOW if kind == NoticeKind.LATER else None
    return outbox.queue(
        order=order, kind=kind, due_at=builders.NOW, occasion="as it was asked for", expected_at=expected_at
    )


def words_of_html(letter):
    body = re.search(r"<body>(.*)</body>", letter.get_body(("html",)).get_content(), re.DOTALL)[1]
    return html.unescape(re.sub(r"<[^>]+>", " ", body)).split()
