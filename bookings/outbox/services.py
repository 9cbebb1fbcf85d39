"""Letters as rows, queued in the transaction that causes them."""

from __future__ import annotations

import logging
from datetime import datetime
from typing import TYPE_CHECKING, Any
from urllib.parse import urlsplit
from uuid import uuid4

from celery import current_app
from django.conf import settings
from django.db import transaction
from kombu.exceptions import OperationalError

from bookings.outbox.models import Notice, NoticeKind

if TYPE_CHECKING:
    from bookings.invoices.models import Invoice
    from bookings.orders.models import Order
    from bookings.vouchers.models import Voucher
    from bookings.waitlist.models import Waiting


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


DRAIN = "bookings.tasks.drain_due_work"
logger = logging.getLogger(__name__)


def ring() -> None:
    """Wake the worker. By the name of its task: the work stands above everything that rings."""
    if not settings.REDIS_URL:
        return
    try:
        current_app.send_task(DRAIN)
    except OperationalError:
        logger.warning("the broker did not answer; the sweep will find the work")
