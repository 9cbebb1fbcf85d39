"""Many invoices at once: asked for in rows, then issued one by one by the drain, each in a transaction of its own.

A run that is cut short goes on where it was. Two that work on it at once do no harm: an order has one invoice.
"""

from collections.abc import Collection
from datetime import datetime

from django.contrib.auth.models import User
from django.db import IntegrityError, transaction
from django.db.models import Exists, OuterRef
from django.utils.translation import gettext as _

from bookings.errors import BookingsError, NothingToInvoice
from bookings.invoices.models import InvoiceRun, InvoiceRunOrder
from bookings.invoices.selectors.runs import ready_to_invoice
from bookings.invoices.services import issuing as invoices
from bookings.outbox.services import ring
from plates.errors import PlatesError

AT_A_TIME = 20  # orders that one drain takes, so that letters never wait long for a large run


@transaction.atomic
def start(*, order_ids: Collection[int], by_mail: bool, asked_by: User, now: datetime) -> InvoiceRun:
    """Ask for the invoices of these orders; those that no longer wait for one are left out, NothingToInvoice if all."""
    orders = ready_to_invoice(now=now).filter(pk__in=order_ids)
    if not orders:
        raise NothingToInvoice(
            _("None of these orders waits for an invoice any more. Look at the list again.")
        )
    run = InvoiceRun.objects.create(asked_at=now, asked_by=asked_by, by_mail=by_mail)
    InvoiceRunOrder.objects.bulk_create(InvoiceRunOrder(run=run, order=order) for order in orders)
    transaction.on_commit(ring)
    return run


def advance(*, now: datetime, at_a_time: int = AT_A_TIME) -> int:
    """Issue the next few invoices of the runs under way, close those that are through; return how many were tried."""
    if not InvoiceRun.objects.filter(finished_at=None).exists():
        return 0
    waiting = InvoiceRunOrder.objects.filter(run__finished_at=None, invoice=None, refused="")
    rows = list(waiting.select_related("run").order_by("pk")[:at_a_time])
    for row in rows:
        _issue(row, now)
    left = waiting.filter(run=OuterRef("pk"))
    InvoiceRun.objects.filter(~Exists(left), finished_at=None).update(finished_at=now)
    if InvoiceRun.objects.filter(finished_at=None).exists():
        ring()
    return len(rows)


def _issue(row: InvoiceRunOrder, now: datetime) -> None:
    """Issue one, and with it the letter if asked for; a refusal keeps its sentence and stops nobody else."""
    try:
        with transaction.atomic():
            invoice = invoices.issue(order_id=row.order_id, now=now)
            InvoiceRunOrder.objects.filter(pk=row.pk).update(invoice=invoice)
            if row.run.by_mail:
                invoices.mail(invoice_id=invoice.pk, now=now)
    except (BookingsError, PlatesError) as refusal:
        _refuse(row, str(refusal))
    except IntegrityError:
        _refuse(row, _("The database did not take this invoice. Issue it from its order to see why."))


def _refuse(row: InvoiceRunOrder, sentence: str) -> None:
    InvoiceRunOrder.objects.filter(pk=row.pk, invoice=None).update(refused=sentence[:300])
