"""Orders and their lines. A price is copied when the order is placed and never looked up again."""

from django.db import models
from django.db.models import Q

from bookings.models.people import Client
from bookings.models.prices import Extra, TaxClass, Terms
from bookings.money import PricedLine
from plates.models import PlateSlot


class Order(models.Model):
    """What one client asked for. Until `placed_at` it is only a held place without a name."""

    reference = models.CharField(max_length=12, unique=True)
    submission_key = models.UUIDField(unique=True)
    asked = models.TextField(help_text="What the form asked for, to tell a repeat from a change.")
    client = models.ForeignKey(Client, null=True, on_delete=models.PROTECT, related_name="orders")
    terms = models.ForeignKey(Terms, on_delete=models.PROTECT, related_name="+")
    currency = models.CharField(max_length=3)
    started_at = models.DateTimeField()
    placed_at = models.DateTimeField(null=True)
    cancelled_at = models.DateTimeField(null=True)
    needs_new_time = models.BooleanField(
        default=False, help_text="Money came after the held place was gone: the sitting must be placed again."
    )

    class Meta:
        ordering = ["-started_at"]
        constraints = [
            models.CheckConstraint(
                name="order_placed_by_someone",
                condition=Q(placed_at__isnull=True) | Q(client__isnull=False),
                violation_error_message="An order is placed by a client.",
            )
        ]

    def __str__(self) -> str:
        return self.reference

    def priced_lines(self) -> list[PricedLine]:
        """The lines as the money rules know them, in order."""
        return [line.as_priced() for line in self.lines.all()]


class OrderLine(models.Model):
    """One plate, or a number of one extra."""

    order = models.ForeignKey(Order, on_delete=models.CASCADE, related_name="lines")
    position = models.PositiveSmallIntegerField()
    text = models.CharField(max_length=120)
    quantity = models.PositiveSmallIntegerField(default=1)
    unit_amount = models.PositiveIntegerField(help_text="In the smallest unit (cents), tax included.")
    tax_class = models.ForeignKey(TaxClass, on_delete=models.PROTECT, related_name="+")
    tax_category = models.CharField(max_length=2)
    tax_rate_bp = models.PositiveSmallIntegerField()
    slot = models.OneToOneField(PlateSlot, null=True, on_delete=models.PROTECT, related_name="+")
    extra = models.ForeignKey(Extra, null=True, on_delete=models.PROTECT, related_name="+")

    class Meta:
        ordering = ["order_id", "position"]
        constraints = [
            models.UniqueConstraint(fields=["order", "position"], name="order_line_once"),
            models.CheckConstraint(
                name="order_line_plate_or_extra",
                condition=Q(slot__isnull=False, extra__isnull=True, quantity=1)
                | Q(slot__isnull=True, extra__isnull=False, quantity__gte=1),
                violation_error_message="A line is one plate, or at least one of an extra.",
            ),
        ]

    def __str__(self) -> str:
        return self.text

    def as_priced(self) -> PricedLine:
        return PricedLine(
            text=self.text,
            quantity=self.quantity,
            unit_gross=self.unit_amount,
            tax_category=self.tax_category,
            rate_bp=self.tax_rate_bp,
        )
