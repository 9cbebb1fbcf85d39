"""The payment ledger: only ever added to. A refund is a negative entry; a balance is always worked out anew."""

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from bookings.orders.models import Order


class Method(models.TextChoices):
    CASH = "cash", _("Cash")
    TRANSFER = "transfer", _("Bank transfer")
    TERMINAL = "terminal", _("Card, own terminal")
    CARD = "card", _("Card, paid online")
    VOUCHER = "voucher", _("Gift voucher")
    PRACTICE = "practice", _("Practice card (demo only)")


class Payment(models.Model):
    """Money that came in for an order or a voucher, or with a minus sign went back.

    A voucher is bought with money (`for_voucher`) and used up by payments of the method "voucher" (`with_voucher`).
    """

    order = models.ForeignKey(Order, null=True, blank=True, on_delete=models.PROTECT, related_name="payments")
    for_voucher = models.ForeignKey(
        "bookings.Voucher",
        null=True,
        blank=True,
        on_delete=models.PROTECT,
        related_name="money",
        help_text="The voucher it bought.",
    )
    with_voucher = models.ForeignKey(
        "bookings.Voucher",
        null=True,
        blank=True,
        on_delete=models.PROTECT,
        related_name="uses",
        help_text="The voucher it came from.",
    )
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
            ),
            models.CheckConstraint(
                name="payment_for_one_thing",
                condition=Q(order__isnull=False, for_voucher__isnull=True)
                | Q(order__isnull=True, for_voucher__isnull=False),
                violation_error_message="A payment is for an order or for a voucher: one of them.",
            ),
            models.CheckConstraint(
                name="payment_with_its_voucher",
                condition=Q(method="voucher", with_voucher__isnull=False, order__isnull=False)
                | (~Q(method="voucher") & Q(with_voucher__isnull=True)),
                violation_error_message="A payment by voucher names its voucher, and pays for an order.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.amount} by {self.method} for {self.order or self.for_voucher}"


class CashUp(models.Model):
    """The cash box counted at the end of a day: only ever added to. A difference is written down, not put right."""

    opened_with = models.IntegerField(help_text="What lay in the box when the count before ended.")
    came_in = models.IntegerField(
        help_text="Cash by the ledger since the count before, given back taken off."
    )
    put_in = models.IntegerField(
        default=0, help_text="Change put in, or with a minus sign taken to the bank."
    )
    counted = models.PositiveIntegerField()
    difference = models.IntegerField(help_text="Counted, less what should be there.")
    currency = models.CharField(max_length=3)
    last_payment = models.ForeignKey(
        Payment, null=True, on_delete=models.PROTECT, related_name="+", help_text="The last one it counts."
    )
    at = models.DateTimeField()
    counted_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    note = models.CharField(max_length=200, blank=True)

    class Meta:
        ordering = ["id"]
        constraints = [
            models.CheckConstraint(
                name="cash_up_adds_up",
                condition=Q(
                    difference=models.F("counted")
                    - models.F("opened_with")
                    - models.F("came_in")
                    - models.F("put_in")
                ),
                violation_error_message="The difference is what was counted less what should be there.",
            )
        ]

    def __str__(self) -> str:
        return f"cash counted at {self.at:%Y-%m-%d %H:%M}"
