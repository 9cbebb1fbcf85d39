"""What things cost and the terms they are sold on. All prices include tax; money is whole minor units."""

from django.core.validators import MaxValueValidator
from django.db import models
from django.db.models import Q

from bookings.money import CancellationRule, DepositRule
from plates.models import PlateSize


class TaxClass(models.Model):
    """A rate of tax, in hundredths of a per cent (23 % is 2300)."""

    name = models.CharField(max_length=40, unique=True)
    category = models.CharField(
        max_length=2,
        choices=[("S", "Standard or reduced rate"), ("Z", "Zero rate"), ("E", "Exempt")],
        default="S",
        help_text="The code an electronic invoice uses (EN 16931, UNTDID 5305).",
    )
    rate_bp = models.PositiveSmallIntegerField(
        "rate (hundredths of a per cent)", validators=[MaxValueValidator(10000)]
    )

    class Meta:
        verbose_name_plural = "tax classes"
        constraints = [
            models.CheckConstraint(
                name="tax_class_rate",
                condition=Q(category="S", rate_bp__gt=0, rate_bp__lte=10000)
                | (~Q(category="S") & Q(rate_bp=0)),
                violation_error_message="A standard rate lies above 0 and up to 100 %; zero rate and exempt are 0.",
            )
        ]

    def __str__(self) -> str:
        return self.name


class SizePrice(models.Model):
    """What one plate of a size costs from a date on."""

    size = models.ForeignKey(PlateSize, on_delete=models.PROTECT, related_name="+")
    amount = models.PositiveIntegerField(help_text="In the smallest unit (cents), tax included.")
    tax_class = models.ForeignKey(TaxClass, on_delete=models.PROTECT, related_name="+")
    holds_from = models.DateField()

    class Meta:
        ordering = ["size", "-holds_from"]
        constraints = [
            models.UniqueConstraint(
                fields=["size", "holds_from"],
                name="size_price_once",
                violation_error_message="This size already has a price from that date.",
            ),
            models.CheckConstraint(
                name="size_price_above_nothing",
                condition=Q(amount__gt=0),
                violation_error_message="A plate costs more than nothing.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.size} from {self.holds_from}"


class ExtraKind(models.TextChoices):
    CASE = "case", "Case"
    FRAME = "frame", "Frame"
    SCAN = "scan", "Scan"
    PRINT = "print", "Extra print"
    POST = "post", "Post"


class Extra(models.Model):
    """Something sold with the plates; it takes no room on the bench."""

    kind = models.CharField(max_length=8, choices=ExtraKind)
    name = models.CharField(max_length=60, unique=True)
    amount = models.PositiveIntegerField(help_text="In the smallest unit (cents), tax included.")
    tax_class = models.ForeignKey(TaxClass, on_delete=models.PROTECT, related_name="+")
    offered = models.BooleanField(default=True)

    class Meta:
        ordering = ["kind", "amount"]

    def __str__(self) -> str:
        return self.name


class Terms(models.Model):
    """What a client agrees to when booking: the deposit, and what a cancellation costs. Never edited once agreed to."""

    version = models.CharField(max_length=20, unique=True)
    holds_from = models.DateField()
    deposit_share_bp = models.PositiveSmallIntegerField(
        "deposit share (hundredths of a per cent)",
        null=True,
        blank=True,
        validators=[MaxValueValidator(10000)],
    )
    deposit_fixed = models.PositiveIntegerField(
        null=True, blank=True, help_text="In the smallest unit (cents)."
    )
    free_until_hours = models.PositiveSmallIntegerField(default=48)
    kept_share_bp = models.PositiveSmallIntegerField(
        "share of the deposit kept after that", default=10000, validators=[MaxValueValidator(10000)]
    )
    text = models.TextField(max_length=4000)

    class Meta:
        verbose_name_plural = "terms"
        ordering = ["-holds_from", "-id"]
        constraints = [
            models.CheckConstraint(
                name="terms_one_deposit_rule",
                condition=Q(deposit_share_bp__isnull=False, deposit_fixed__isnull=True)
                | Q(deposit_share_bp__isnull=True, deposit_fixed__isnull=False),
                violation_error_message="Give the deposit either as a share or as a fixed sum.",
            )
        ]

    def __str__(self) -> str:
        return self.version

    def deposit_rule(self) -> DepositRule:
        return DepositRule(share_bp=self.deposit_share_bp, fixed=self.deposit_fixed)

    def cancellation_rule(self) -> CancellationRule:
        return CancellationRule(free_hours=self.free_until_hours, kept_bp=self.kept_share_bp)
