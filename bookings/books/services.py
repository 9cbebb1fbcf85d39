"""Entering by one press what is left to pay on an invoice."""

from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction
from django.utils.translation import gettext as _

from bookings.errors import NothingOwed
from bookings.invoices.models import Invoice
from bookings.invoices.selectors.status import status_of
from bookings.payments.models import Method, Payment
from bookings.payments.services import ledger as payments


def mark_paid(*, invoice_id: int, reference: str, now: datetime, recorded_by: User | None = None) -> Payment:
    """Enter a bank transfer of what is left on an invoice, under the bank's reference.

    NothingOwed when nothing is left of it, Invoice.DoesNotExist for a credit note; else as `payments.record`.
    """
    order_id = Invoice.objects.values_list("order_id", flat=True).get(pk=invoice_id)
    payment = _enter(invoice_id, order_id, reference, now, recorded_by)
    payments.confirm_if_covered(order_id=order_id, now=now)
    return payment


@transaction.atomic
def _enter(
    invoice_id: int, order_id: int, reference: str, now: datetime, recorded_by: User | None
) -> Payment:
    # Locked before what is left is worked out: pressed twice, from two screens too, it is entered once.
    payments.lock_payable(order_id=order_id)
    invoice = Invoice.objects.select_related("series").get(pk=invoice_id)
    same = {"order": order_id, "method": Method.TRANSFER, "note": invoice.label}
    if before := Payment.objects.filter(reference=reference, **same).first():
        return before
    left = status_of(invoice, now=now).left
    if left <= 0:
        raise NothingOwed(_("Nothing is left to pay on {label}.").format(label=invoice.label))
    payment = Payment(
        order_id=order_id,
        amount=left,
        method=Method.TRANSFER,
        reference=reference,
        at=now,
        recorded_by=recorded_by,
        note=invoice.label,
    )
    return payments.enter_once(payment=payment)
