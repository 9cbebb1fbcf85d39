"""The letters to clients: one notice in, one letter out, in plain text and in HTML that says the same words."""

import textwrap
from collections import Counter
from datetime import timedelta
from email.utils import quote

from django.conf import settings
from django.core.mail import EmailMultiAlternatives
from django.urls import reverse
from django.utils.translation import gettext as _

from bookings.access import links as step_up_links
from bookings.common import formats
from bookings.errors import NotPlaced
from bookings.handover.selectors.desk import goes_by_post
from bookings.invoices import letter as invoice_letter
from bookings.letters import amounts as letter_money
from bookings.letters import reminder_context as reminder_words
from bookings.letters import rendering as letter_forms
from bookings.letters import unsubscribe as stop_links
from bookings.letters.models import Wording
from bookings.orders import ics, links
from bookings.orders.models import Client, Order
from bookings.outbox.models import Notice, NoticeKind
from bookings.studio.language import speaking_for_the_studio
from bookings.studio.models import Studio
from bookings.studio.selectors import the_studio
from bookings.vouchers.models import Voucher
from bookings.vouchers.paper import voucher_pdf, voucher_words
from bookings.waitlist import letter as waiting_letter
from bookings.waitlist.models import Waiting
from plates.bench import selectors as ledger

WIDTH = 72
WITH_CALENDAR = (NoticeKind.CONFIRMED, NoticeKind.CANCELLED)


def message(notice: Notice) -> EmailMultiAlternatives:
    """The letter of a notice in the studio's language, ready to be sent, about the order as it now stands.

    Its times of reference (the calendar file's stamp, what cancelling would cost) are those of `notice.due_at`, so
    that a repeat of the letter is the same letter. Raises NotPlaced without a client, StudioMissing.
    """
    with speaking_for_the_studio():
        if notice.voucher is not None:
            return _voucher_letter(notice, notice.voucher)
        if notice.waiting is not None:
            return _waiting_letter(notice, notice.waiting)
        return _order_letter(notice)


def _order_letter(notice: Notice) -> EmailMultiAlternatives:
    order = notice.order
    if order is None or (client := order.client) is None:
        raise NotPlaced(_("Nobody has put a name to this order yet, so there is nobody to write to."))
    studio = the_studio()
    words = _context(notice, order, client, studio)
    letter = _letter(notice, words, mailbox(client.name, client.email), studio)
    if notice.kind in WITH_CALENDAR:
        letter.attach_alternative(*_calendar(notice, order, client))
    if notice.invoice is not None:
        letter.attach(*invoice_letter.attachment(notice.invoice))
    return letter


def _voucher_letter(notice: Notice, voucher: Voucher) -> EmailMultiAlternatives:
    """The letter to whoever bought a voucher, with the voucher as a paper."""
    studio = the_studio()
    words = voucher_words(voucher, studio) | {"name": one_line(voucher.buyer_name)}
    letter = _letter(notice, words, mailbox(voucher.buyer_name, voucher.buyer_email), studio)
    letter.attach("voucher.pdf", voucher_pdf(voucher), "application/pdf")
    return letter


def _waiting_letter(notice: Notice, place: Waiting) -> EmailMultiAlternatives:
    """The letter to somebody on a waiting list: that the place is noted, or that a time is offered."""
    studio = the_studio()
    words = waiting_letter.context(place, studio) | {"name": one_line(place.name)}
    return _letter(notice, words, mailbox(place.name, place.email), studio)


def _letter(notice: Notice, words: dict[str, object], to: str, studio: Studio) -> EmailMultiAlternatives:
    """The letter of that kind in both forms, from the studio."""
    own = Wording.objects.filter(kind=notice.kind).first()
    written = letter_forms.rendered(NoticeKind(notice.kind), words, own)
    letter = EmailMultiAlternatives(
        subject=one_line(written.subject),
        body=wrapped(written.text),
        from_email=mailbox(studio.name, studio.email),
        to=[to],
        headers={
            "Message-ID": notice.message_id,
            "Auto-Submitted": "auto-generated",
            **stop_links.head(str(words.get("stop_link", ""))),
        },
    )
    letter.attach_alternative(written.html, "text/html")
    return letter


def mailbox(name: str, address: str) -> str:
    """Name and address as one mailbox of a letter's head; nothing in either can begin another line or mailbox."""
    return f'"{quote(one_line(name))}" <{one_line(address)}>'


def one_line(text: str) -> str:
    """Return `text` on one line: every run of white space is one space, and other control characters are gone."""
    return "".join(sign for sign in " ".join(text.split()) if sign.isprintable())


def _calendar(notice: Notice, order: Order, client: Client) -> tuple[str, str]:
    """The calendar file and its kind, with its method in that too, as RFC 6047 wants it."""
    cancelled = notice.kind == NoticeKind.CANCELLED
    content = ics.sitting_calendar(order, now=notice.due_at, cancelled=cancelled, to=client.email)
    method = ics.method(cancelled=cancelled, to=client.email)
    return content.decode(), f'text/calendar; method={method}; name="sitting.ics"'


def _context(notice: Notice, order: Order, client: Client, studio: Studio) -> dict[str, object]:
    """What the templates of any letter may say. Money, dates and times are written out already."""
    sitting = order.sitting
    venue, job = sitting.day.venue, sitting.bench_job
    expected = sitting.day.local(job.expected_at or job.starts_at)
    path, purpose = _leads_to(notice, order)
    return {
        "studio": studio,
        "studio_address": studio.address.splitlines(),
        "name": one_line(client.name),
        "order": order,
        "venue": venue,
        "place": ", ".join([venue.name, *venue.address.splitlines()]),
        "date": formats.long_date(sitting.day.local(job.starts_at).date(), studio.locale),
        "when": formats.moment(sitting.day.local(job.starts_at), studio.locale),
        "expected": formats.moment(expected, studio.locale),
        "expected_clock": formats.clock(expected),
        "later_minutes": (expected - job.starts_at) // timedelta(minutes=1),
        "held_until": formats.moment(sitting.day.local(job.held_until), studio.locale),
        "ready_by": _ready_by(notice, order, studio),
        "pickup_code": formats.in_groups(order.pickup_code or ""),
        "by_post": goes_by_post(order),
        "kept_days": order.terms.kept_days,
        "parcel": notice.parcel,
        "lines": _lines(order),
        "plates": _plates(order),
        "moved": notice.kind == NoticeKind.CONFIRMED and bool(notice.sequence),
        "purpose": purpose,
        "link": settings.SITE_ADDRESS + path,
        **reminder_words.context(notice, order, client),
        **letter_money.context(order, studio, notice.due_at),
        **(invoice_letter.context(notice.invoice, studio, notice.due_at) if notice.invoice else {}),
    }


def _ready_by(notice: Notice, order: Order, studio: Studio) -> str:
    """The promised date in the letters until the plates are made; nothing where none is promised."""
    tells = notice.kind in (NoticeKind.DEPOSIT_DUE, NoticeKind.CONFIRMED, NoticeKind.IN_WASH)
    return formats.long_date(order.promised_on, studio.locale) if tells and order.promised_on else ""


def _leads_to(notice: Notice, order: Order) -> tuple[str, str]:
    """Where the link of a letter leads, and what it opens, where that is for one purpose only."""
    if notice.step_up is not None:
        return step_up_links.path(notice.step_up), notice.step_up.get_purpose_display()
    if notice.kind in (NoticeKind.DEPOSIT_DUE, NoticeKind.DEPOSIT_MISSING):
        return reverse("deposit", args=[links.checkout_token(order)]), ""
    return reverse("sitting", args=[links.sitting_token(order)]), ""


def _lines(order: Order) -> list[tuple[int, str]]:
    """What was ordered, equal lines counted together."""
    counted: Counter[str] = Counter()
    for line in order.lines.all():
        counted[line.text] += line.quantity
    return [(quantity, text) for text, quantity in counted.items()]


def _plates(order: Order) -> list[str]:
    """The plates made for an order, each by its number and size."""
    slots = ledger.slots_of(job_ids=[order.sitting.bench_job_id])[order.sitting.bench_job_id]
    made = [(ledger.live_plate(slot), slot.size) for slot in slots]
    return [
        _("Plate {number}, {size}").format(number=plate.number, size=size)
        for plate, size in made
        if plate is not None
    ]


def wrapped(text: str) -> str:
    """Return `text` in lines of up to WIDTH, lists hanging, and never two empty lines in a row."""
    lines: list[str] = []
    for line in text.strip().splitlines():
        indent = "  " if line.startswith("- ") else ""
        found = textwrap.wrap(
            line, WIDTH, subsequent_indent=indent, break_long_words=False, break_on_hyphens=False
        ) or [""]
        if found != [""] or lines[-1] != "":
            lines += found
    return "\n".join(lines) + "\n"
