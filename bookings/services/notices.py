"""Letters as rows: queued in the transaction that caused them, sent afterwards, at least once."""

import logging
import smtplib
from datetime import UTC, datetime, timedelta
from typing import Any
from urllib.parse import urlsplit
from uuid import uuid4

from django.conf import settings
from django.core.mail import BadHeaderError
from django.db import transaction

from bookings import mail
from bookings.models import Invoice, Notice, NoticeKind, Order, StepUp, Voucher, Waiting
from bookings.selectors.orders import account
from bookings.selectors.vouchers import is_paid
from bookings.selectors.waiting import State, state_of
from bookings.tasks import ring

MOST_TRIES = 10
# With the sweep of every ten seconds, what a sender that died had in hand goes out within a minute.
IN_HAND = timedelta(seconds=40)
WAITING = ("waiting__day__venue", "waiting__day__bench_day", "waiting__order__sitting__bench_job")
logger = logging.getLogger(__name__)


def queue(*, order: Order, kind: NoticeKind, due_at: datetime, occasion: str = "") -> Notice:
    """Put a letter in the row; the same letter twice is one. The bell rings once this is committed."""
    return _queued(due_at, order=order, kind=kind, occasion=occasion)


def queue_voucher(*, voucher: Voucher, due_at: datetime, occasion: str = "") -> Notice:
    """Put the letter that carries a voucher in the row; for the same occasion it is one letter."""
    return _queued(due_at, voucher=voucher, kind=NoticeKind.VOUCHER, occasion=occasion)


def queue_waiting(*, place: Waiting, kind: NoticeKind, due_at: datetime) -> Notice:
    """Put a letter to somebody on a waiting list in the row; of each kind there is one."""
    return _queued(due_at, waiting=place, kind=kind, occasion="")


def queue_paper(*, invoice: Invoice, due_at: datetime, occasion: str) -> Notice:
    """Put the letter that carries an invoice or a credit note in the row; for the same occasion it is one letter."""
    which = {"order": invoice.order, "kind": NoticeKind.INVOICE, "occasion": occasion}
    return _queued(due_at, invoice=invoice, **which)


def _queued(due_at: datetime, **which: Any) -> Notice:
    domain = urlsplit(settings.SITE_ADDRESS).hostname
    notice, created = Notice.objects.get_or_create(
        **which, defaults={"due_at": due_at, "message_id": f"<{uuid4()}@{domain}>"}
    )
    if created:
        transaction.on_commit(ring)
    return notice


def later_occasion(*, expected_at: datetime | None) -> str:
    """What tells one news of a later start from another: the new time, in UTC; empty on a day that is in time."""
    return f"{expected_at.astimezone(UTC):%Y-%m-%dT%H:%MZ}" if expected_at else ""


def told_time(*, occasion: str) -> str:
    """The time that a letter of that occasion tells; a number follows where that time has been told once before."""
    return occasion.partition(" ")[0]


def send_due(*, now: datetime) -> int:
    """Send every letter that is due and return how many went out. Failures wait and try again."""
    sent = 0
    for notice_id in list(Notice.objects.due(now).values_list("pk", flat=True)):
        sent += _claim(notice_id, now) and _send(notice_id, now)
    return sent


def _claim(notice_id: int, now: datetime) -> bool:
    """Take a letter in hand, so that two senders do not both send it; a sender that dies lets it go in time."""
    return bool(Notice.objects.due(now).filter(pk=notice_id).update(claimed_until=now + IN_HAND))


def _send(notice_id: int, now: datetime) -> bool:
    # No transaction is open here: a mail server that hangs must not hold up the diary.
    about = ("order__client", "order__terms", "voucher", "invoice__series", *WAITING)
    notice = Notice.objects.select_related(*about).get(pk=notice_id)
    if not _still_true(notice, now):
        Notice.objects.filter(pk=notice_id).update(withdrawn_at=now, claimed_until=None)
        return False
    try:
        mail.message(notice).send()
    except (smtplib.SMTPException, OSError, BadHeaderError) as error:
        _put_off(notice, error, now)
        return False
    notice.sent_at = now
    notice.claimed_until = None
    notice.save(update_fields=["sent_at", "claimed_until"])
    return True


def _still_true(notice: Notice, now: datetime) -> bool:
    """Whether a letter may still go out: one that asks for what has come meanwhile would only worry its reader."""
    order = notice.order
    if order is None:
        return _true_without_an_order(notice, now)
    if order.client is not None and order.client.erased_at is not None:
        return False
    if notice.kind in (NoticeKind.CANCELLED, NoticeKind.INVOICE):
        return True
    if notice.kind == NoticeKind.STEP_UP:
        return StepUp.objects.filter(pk=int(notice.occasion), used_at=None, runs_out_at__gt=now).exists()
    if order.cancelled_at is not None:
        return False
    if notice.kind == NoticeKind.DEPOSIT_DUE:
        return bool(account(order).deposit_owed)
    if notice.kind == NoticeKind.LATER:
        return told_time(occasion=notice.occasion) == later_occasion(
            expected_at=order.sitting.bench_job.expected_at
        )
    return notice.kind != NoticeKind.NEW_TIME or order.needs_new_time


def _true_without_an_order(notice: Notice, now: datetime) -> bool:
    """Whether a letter about a voucher, or to somebody on a waiting list, may still go out."""
    if notice.waiting is None:
        return notice.voucher is None or bool(notice.voucher.buyer_email and is_paid(notice.voucher))
    wanted = State.OFFERED if notice.kind == NoticeKind.OFFER else State.WAITS
    return state_of(notice.waiting, now=now) == wanted


def _put_off(notice: Notice, error: Exception, now: datetime) -> None:
    """Wait twice as long after each failure; after the last one leave the letter to the owner."""
    notice.tries += 1
    notice.last_error = f"{type(error).__name__}: {error}"[:300]
    notice.due_at = now + timedelta(seconds=15) * 2**notice.tries
    notice.claimed_until = None
    if notice.tries >= MOST_TRIES:
        notice.given_up_at = now
    notice.save(update_fields=["tries", "last_error", "due_at", "claimed_until", "given_up_at"])
    logger.warning("notice %s was not sent (try %s): %s", notice.pk, notice.tries, type(error).__name__)
