"""Sending an issued paper to its client: a letter in the row, with the PDF made when it goes out."""

from datetime import datetime

from django.db import transaction

from bookings.invoices.models import Invoice
from bookings.outbox import services as outbox
from bookings.outbox.models import Notice, NoticeKind


@transaction.atomic
def mail(*, invoice_id: int, now: datetime, turn: int = 1) -> Notice:
    """Queue the letter that carries an invoice or credit note.

    `turn` says which letter with this paper is asked for: the same one asked for twice is one, and the next one can
    be asked for once the one before has been.
    """
    invoice = Invoice.objects.select_related("order", "series").get(pk=invoice_id)
    written = Notice.objects.filter(kind=NoticeKind.INVOICE, invoice=invoice).count()
    turn = max(1, min(turn, written + 1))
    occasion = invoice.label if turn == 1 else f"{invoice.label} no. {turn}"
    return outbox.queue_paper(invoice=invoice, occasion=occasion, due_at=now)
