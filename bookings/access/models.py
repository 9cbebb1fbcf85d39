"""Links that are mailed for one purpose, for a few minutes and for one use: a client has no password."""

from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from bookings.orders.models import Order


class Purpose(models.TextChoices):
    CHANGE = "change", _("See everything, change the time or the plates, or cancel")
    PAPERS = "papers", _("Invoices and pictures of your plates")
    DATA = "data", _("Your details: answers, a copy of them, or their erasure")


class StepUp(models.Model):
    """One such link. The link itself is not kept: it is signed anew from `nonce` when its letter is written."""

    order = models.ForeignKey(Order, on_delete=models.CASCADE, related_name="step_ups")
    purpose = models.CharField(max_length=8, choices=Purpose)
    nonce = models.UUIDField(unique=True)
    standing = models.CharField(max_length=64, help_text="What the order was like when it was asked for.")
    asked_at = models.DateTimeField()
    runs_out_at = models.DateTimeField()
    used_at = models.DateTimeField(null=True)

    class Meta:
        ordering = ["-asked_at", "-id"]
        constraints = [
            models.CheckConstraint(
                name="step_up_used_in_time",
                condition=Q(used_at__isnull=True) | Q(used_at__lt=models.F("runs_out_at")),
                violation_error_message="A link is used before it runs out.",
            )
        ]

    def __str__(self) -> str:
        return f"{self.purpose} of {self.order}"
