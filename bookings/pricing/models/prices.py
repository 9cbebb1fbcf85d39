"""What things cost. All prices include tax; money is whole minor units."""

from django.core.validators import MaxValueValidator
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from bookings.money import DiscountRule
from plates.bench.models import PlateSize


class TaxClass(models.Model):
    """A rate of tax, in hundredths of a per cent (23 % is 2300)."""

    name = models.CharField(max_length=40, unique=True)
    category = models.CharField(
        max_length=2,
        choices=[("S", _("Standard or reduced rate")), ("Z", _("Zero rate")), ("E", _("Exempt"))],
        default="S",
        help_text="The code an electronic invoice uses (EN 16931, UNTDID 5305).",
    )
    rate_bp = models.PositiveSmallIntegerField(
        "rate (hundredths of a per cent)", validators=[MaxValueValidator(10000)]
    )
    exemption_reason = models.CharField(
        max_length=120, blank=True, help_text="Printed on invoices when exempt (EN 16931, BT-120)."
    )

    class Meta:
        verbose_name_plural = "tax classes"
        constraints = [
            models.CheckConstraint(
                name="tax_class_rate",
                condition=Q(category="S", rate_bp__gt=0, rate_bp__lte=10000)
                | (~Q(category="S") & Q(rate_bp=0)),
                violation_error_message="A standard rate lies above 0 and up to 100 %%; zero rate and exempt are 0.",
            ),
            models.CheckConstraint(
                name="tax_class_exempt_for_a_reason",
                condition=~Q(category="E") | ~Q(exemption_reason=""),
                violation_error_message="Say why it is exempt: the reason is printed on every invoice.",
            ),
        ]

    def __str__(self) -> str:
        return self.name


class SizePrice(models.Model):
    """What one plate of a size costs from a date on."""

    size = models.ForeignKey(PlateSize, on_delete=models.PROTECT, related_name="+")
    amount = models.PositiveIntegerField(help_text="In the smallest unit (cents), tax included.")
    further_amount = models.PositiveIntegerField(
        "each further plate",
        null=True,
        blank=True,
        help_text="For the second and later plates of this size in one sitting; empty when they cost the same.",
    )
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
                condition=Q(amount__gt=0) & (Q(further_amount__isnull=True) | Q(further_amount__gt=0)),
                violation_error_message="A plate costs more than nothing.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.size} from {self.holds_from}"


class ExtraKind(models.TextChoices):
    CASE = "case", _("Case")
    FRAME = "frame", _("Frame")
    SCAN = "scan", _("Scan")
    PRINT = "print", _("Extra print")
    POST = "post", _("Post")


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


class SurchargeKind(models.TextChoices):
    SITTER = "sitter", _("Further sitter")
    TRAVEL = "travel", _("Travel")


class Surcharge(models.Model):
    """What is added from a date on: for each further person in the picture, or once a sitting for the way to it."""

    kind = models.CharField(max_length=8, choices=SurchargeKind)
    venue = models.ForeignKey(
        "bookings.Venue",
        null=True,
        blank=True,
        on_delete=models.PROTECT,
        related_name="+",
        help_text="Empty: at every venue that has none of its own.",
    )
    amount = models.PositiveIntegerField(
        help_text="In the smallest unit (cents), tax included; 0 ends what held before."
    )
    tax_class = models.ForeignKey(TaxClass, on_delete=models.PROTECT, related_name="+")
    holds_from = models.DateField()

    class Meta:
        ordering = ["kind", "venue", "-holds_from"]
        constraints = [
            models.UniqueConstraint(
                fields=["kind", "venue", "holds_from"],
                name="surcharge_once",
                violation_error_message="This venue already has that surcharge from that date.",
            ),
            models.UniqueConstraint(
                fields=["kind", "holds_from"],
                condition=Q(venue__isnull=True),
                name="surcharge_everywhere_once",
                violation_error_message="There is already such a surcharge for every venue from that date.",
            ),
            models.CheckConstraint(
                name="surcharge_travel_to_somewhere",
                condition=~Q(kind="travel") | Q(venue__isnull=False),
                violation_error_message="Travel is charged for one venue: choose it.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.get_kind_display()} from {self.holds_from}"


class Discount(models.Model):
    """A reduction that a client names by its code: a share of the price, or a sum off it."""

    code = models.CharField(
        max_length=20, unique=True, help_text="Capital letters and figures, as clients type it."
    )
    text = models.CharField(max_length=60, help_text="How it stands on the quote and the invoice.")
    share_bp = models.PositiveSmallIntegerField("share (hundredths of a per cent)", null=True, blank=True)
    amount = models.PositiveIntegerField(
        null=True, blank=True, help_text="In the smallest unit (cents), tax included."
    )
    holds_from = models.DateField()
    holds_until = models.DateField(null=True, blank=True, help_text="The last day on which it can be named.")
    most_uses = models.PositiveIntegerField(
        null=True, blank=True, help_text="How many orders may name it; empty: any number."
    )

    class Meta:
        ordering = ["code"]
        constraints = [
            models.CheckConstraint(
                name="discount_share_or_sum",
                # Said of each that it is there: a comparison with NULL alone would let neither pass.
                condition=Q(share_bp__isnull=False, share_bp__gt=0, share_bp__lte=10000, amount__isnull=True)
                | Q(share_bp__isnull=True, amount__isnull=False, amount__gt=0),
                violation_error_message="Give either a share above 0 and up to 100 %%, or a sum above nothing.",
            ),
            models.CheckConstraint(
                name="discount_ends_after_it_begins",
                condition=Q(holds_until__isnull=True) | Q(holds_until__gte=models.F("holds_from")),
                violation_error_message="The last day lies before the first.",
            ),
        ]

    def __str__(self) -> str:
        return self.code

    def rule(self) -> DiscountRule:
        return DiscountRule(share_bp=self.share_bp, fixed=self.amount)
