"""Invoices of people who were forgotten: kept as the law wants them, and looked at for a reason only."""

from django.conf import settings
from django.db import models
from django.db.models import Q

from bookings.invoices.models.invoices import Invoice


class KeptLook(models.Model):
    """Somebody opened an invoice that is shut away, and why. The database refuses to change or delete it."""

    invoice = models.ForeignKey(Invoice, on_delete=models.PROTECT, related_name="looks")
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField()
    reason = models.CharField(max_length=200)

    class Meta:
        ordering = ["-at", "-id"]
        constraints = [
            models.CheckConstraint(
                name="kept_look_for_a_reason",
                condition=~Q(reason=""),
                violation_error_message="Say why the invoice is looked at.",
            )
        ]

    def __str__(self) -> str:
        return f"look at {self.invoice}"
