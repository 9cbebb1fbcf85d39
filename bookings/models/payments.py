"""The payment ledger: only ever added to. A refund is a negative entry; a balance is always worked out anew."""

from django.conf import settings
from django.db import models
from django.db.models import Q

from bookings.models.orders import Order


class Method(models.TextChoices):
    CASH = "cash", "Cash"
    TRANSFER = "transfer", "Bank transfer"
    TERMINAL = "terminal", "Card, own terminal"
    PRACTICE = "practice", "Practice card (demo only)"


class Payment(models.Model):
    """Money that came in, or with a minus sign went back."""

    order = models.ForeignKey(Order, on_delete=models.PROTECT, related_name="payments")
    amount = models.IntegerField(help_text="In the smallest unit (cents).")
    method = models.CharField(max_length=10, choices=Method)
    reference = models.CharField(max_length=64, unique=True)
    at = models.DateTimeField()
    recorded_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT, related_name="+"
    )
    note = models.CharField(max_length=200, blank=True)

    class Meta:
        ordering = ["id"]
        constraints = [
            models.CheckConstraint(
                name="payment_of_something",
                condition=~Q(amount=0),
                violation_error_message="A payment moves more than nothing.",
            )
        ]

    def __str__(self) -> str:
        return f"{self.amount} by {self.method} for {self.order}"
