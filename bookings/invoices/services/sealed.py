"""Looking at an invoice that is shut away: it is noted who did, and why."""

from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction

from bookings.invoices.models import Invoice, KeptLook
from bookings.invoices.selectors.sealed import shut_away


@transaction.atomic
def open_sealed(*, invoice_id: int, by: User, reason: str, now: datetime) -> Invoice:
    """Note the look and return the paper. Invoice.DoesNotExist for one that is not shut away."""
    invoice = shut_away().select_related("series", "order", "corrects__series").get(pk=invoice_id)
    KeptLook.objects.create(invoice=invoice, by=by, reason=reason, at=now)
    return invoice
