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
    from bookings.access.models import StepUp
    from bookings.handover.models import Parcel
    from bookings.invoices.models import Invoice
    from bookings.orders.models import Order
    from bookings.vouchers.models import Voucher
    from bookings.waitlist.models import Waiting

DRAIN = "bookings.tasks.drain_due_work"
logger = logging.getLogger(__name__)


def queue(
    *,
    order: Order,
    kind: NoticeKind,
    due_at: datetime,
    occasion: str = "",
    sequence: int | None = None,
    expected_at: datetime | None = None,
) -> Notice:
    """Queue a letter about an order; once for an occasion, which is the calendar sequence where none is named.

    `expected_at`: the later start that a letter of the kind LATER tells.
    """
    if sequence is not None:
        occasion = occasion or str(sequence)
    facts = {"sequence": sequence, "expected_at": expected_at}
    return _queued(due_at, facts, order=order, kind=kind, occasion=occasion)


def queue_parcel(*, parcel: Parcel, due_at: datetime, occasion: str = "") -> Notice:
    """Queue the letter that tells of a parcel; once for an occasion."""
    which = {
        "order": parcel.handover.order,
        "kind": NoticeKind.POSTED,
        "occasion": occasion or str(parcel.pk),
    }
    return _queued(due_at, {"parcel": parcel}, **which)


def queue_step_up(*, step_up: StepUp, due_at: datetime) -> Notice:
    """Queue the letter that carries a link for one purpose."""
    which = {"order": step_up.order, "kind": NoticeKind.STEP_UP, "occasion": str(step_up.pk)}
    return _queued(due_at, {"step_up": step_up}, **which)


def queue_voucher(*, voucher: Voucher, due_at: datetime, occasion: str = "") -> Notice:
    """Queue the letter that carries a voucher; once for an occasion."""
    return _queued(due_at, {}, voucher=voucher, kind=NoticeKind.VOUCHER, occasion=occasion)


def queue_waiting(*, place: Waiting, kind: NoticeKind, due_at: datetime) -> Notice:
    """Queue a letter to somebody on a waiting list; once of each kind."""
    return _queued(due_at, {}, waiting=place, kind=kind, occasion="")


def queue_paper(*, invoice: Invoice, due_at: datetime, occasion: str) -> Notice:
    """Queue the letter that carries an invoice or a credit note; once for an occasion."""
    which = {"order": invoice.order, "kind": NoticeKind.INVOICE, "occasion": occasion}
    return _queued(due_at, {}, invoice=invoice, **which)


def _queued(due_at: datetime, facts: dict[str, Any], **which: Any) -> Notice:
    """The letter that `which` identifies, written once; the worker is woken when it is committed."""
    domain = urlsplit(settings.SITE_ADDRESS).hostname
    notice, created = Notice.objects.get_or_create(
        **which, defaults={"due_at": due_at, "message_id": f"<{uuid4()}@{domain}>", **facts}
    )
    if created:
        transaction.on_commit(ring)
    return notice


def ring() -> None:
    """Wake the worker. By the name of its task: the work stands above everything that rings."""
    if not settings.REDIS_URL:
        return
    try:
        current_app.send_task(DRAIN)
    except OperationalError:
        logger.warning("the broker did not answer; the sweep will find the work")
