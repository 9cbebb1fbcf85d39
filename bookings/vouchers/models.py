"""Gift vouchers: bought with money, used up by payments. What is left on one is always worked out anew."""

from django.db import models
from django.db.models import Q


class Voucher(models.Model):
    """A promise to take this sum as money. It counts once it is paid for in full, and until its last day."""

    code = models.CharField(max_length=20, unique=True)
    submission_key = models.UUIDField(
        unique=True, help_text="The form it was asked for with; sent twice it is one."
    )
    amount = models.PositiveIntegerField(help_text="In the smallest unit (cents).")
    currency = models.CharField(max_length=3)
    buyer_name = models.CharField(max_length=120)
    buyer_email = models.EmailField()
    for_name = models.CharField("for", max_length=120, blank=True)
    message = models.CharField(max_length=300, blank=True)
    asked_at = models.DateTimeField()
    last_day = models.DateField(
        null=True, help_text="The last day on which it can be used; empty: without end."
    )
    withdrawn_at = models.DateTimeField(null=True)

    class Meta:
        ordering = ["-asked_at", "-id"]
        constraints = [
            models.CheckConstraint(
                name="voucher_worth_something",
                condition=Q(amount__gt=0),
                violation_error_message="A voucher is worth more than nothing.",
            )
        ]

    def __str__(self) -> str:
        return self.code


class WrongCode(models.Model):
    """A code that no voucher has, typed on the page of an order: kept for an hour, so that nobody tries many."""

    order = models.ForeignKey("bookings.Order", on_delete=models.CASCADE, related_name="+")
    at = models.DateTimeField()

    def __str__(self) -> str:
        return f"wrong code at {self.at:%Y-%m-%d %H:%M}"
