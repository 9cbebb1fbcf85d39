"""Orders and their lines. A price is copied when the order is placed and never looked up again."""

from typing import Self

from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from bookings.money import PricedLine
from bookings.orders.models.clients import Client
from bookings.pricing.models import Discount, Extra, TaxClass, Terms
from plates.bench.models import PlateSlot


class CancelCause(models.TextChoices):
    CLIENT = "client", _("The client cancelled")
    STUDIO = "studio", _("The studio cancelled")
    NO_PLATE = "no_plate", _("No plate could be made")


class OrderQuerySet(models.QuerySet["Order"]):
    def placed(self) -> Self:
        """Orders that a client has put a name to, cancelled ones among them."""
        return self.filter(placed_at__isnull=False)

    def open(self) -> Self:
        """Placed orders that were not cancelled."""
        return self.placed().filter(cancelled_at__isnull=True)

    def with_sitting(self) -> Self:
        """With what pages show of client, terms, place and time."""
        return self.select_related("client", "terms", "sitting__day__venue", "sitting__bench_job__day")

    def locked(self, order_id: int) -> "Order":
        """The order, locked until the transaction ends. Days are locked before orders."""
        return self.select_for_update(of=("self",)).get(pk=order_id)


class Order(models.Model):
    """What one client asked for. Until `placed_at` it is only a held place without a name."""

    reference = models.CharField(max_length=12, unique=True)
    submission_key = models.UUIDField(unique=True)
    asked = models.TextField(help_text="What the form asked for, to tell a repeat from a change.")
    client = models.ForeignKey(Client, null=True, on_delete=models.PROTECT, related_name="orders")
    terms = models.ForeignKey(Terms, on_delete=models.PROTECT, related_name="+")
    currency = models.CharField(max_length=3)
    sitters = models.PositiveSmallIntegerField(default=1, help_text="How many people are in the picture.")
    started_at = models.DateTimeField()
    placed_at = models.DateTimeField(null=True)
    cancelled_at = models.DateTimeField(null=True)
    cancel_cause = models.CharField(max_length=8, choices=CancelCause, blank=True)
    kept = models.PositiveIntegerField(
        null=True, help_text="What a cancelled order costs after all, in the smallest unit."
    )
    promised_on = models.DateField(
        _("plates promised by"), null=True, help_text=_("As the client was told; only a new time changes it.")
    )
    promised_at = models.DateTimeField(
        null=True, help_text=_("When that date was promised: first come, first varnished.")
    )
    at_risk_since = models.DateTimeField(
        null=True, help_text=_("By the outlook since then, that date will not be kept.")
    )
    outlook_on = models.DateField(
        null=True, help_text=_("The date that can be kept instead; empty: nobody can say.")
    )
    pickup_code = models.CharField(
        max_length=8, null=True, unique=True, help_text=_("Who brings it may be handed the plates.")
    )
    needs_new_time = models.BooleanField(
        default=False, help_text="Money came after the held place was gone: the sitting must be placed again."
    )

    objects = OrderQuerySet.as_manager()

    class Meta:
        ordering = ["-started_at"]
        constraints = [
            models.CheckConstraint(
                name="order_placed_by_someone",
                condition=Q(placed_at__isnull=True) | Q(client__isnull=False),
                violation_error_message="An order is placed by a client.",
            ),
            models.CheckConstraint(
                name="order_of_somebody",
                condition=Q(sitters__gte=1),
                violation_error_message="There is at least one person in a picture.",
            ),
            models.CheckConstraint(
                name="order_kept_of_a_cancelled_one",
                condition=Q(cancelled_at__isnull=False) | Q(kept__isnull=True, cancel_cause=""),
                violation_error_message="Only a cancelled order has a cause of it and a sum that is kept.",
            ),
            models.CheckConstraint(
                name="order_promise_is_whole",
                condition=Q(promised_on__isnull=True, promised_at__isnull=True, at_risk_since__isnull=True)
                | Q(promised_on__isnull=False, promised_at__isnull=False),
                violation_error_message=_(
                    "A date is promised at some time, and only a promised date is at risk."
                ),
            ),
            models.CheckConstraint(
                name="order_outlook_of_one_at_risk",
                condition=Q(at_risk_since__isnull=False) | Q(outlook_on__isnull=True),
                violation_error_message=_(
                    "Another date is looked for only where the promised one is at risk."
                ),
            ),
        ]

    def __str__(self) -> str:
        return self.reference

    def priced_lines(self) -> list[PricedLine]:
        """The lines as the money rules know them, in order."""
        return [line.as_priced() for line in self.lines.all()]


class LineKind(models.TextChoices):
    PLATE = "plate", _("Plate")
    EXTRA = "extra", _("Extra")
    SITTER = "sitter", _("Further sitter")
    TRAVEL = "travel", _("Travel")
    DISCOUNT = "discount", _("Discount")
    LATE_MOVE = "late_move", _("Late change of time")


class OrderLine(models.Model):
    """One plate, a number of one extra, a surcharge; or a discount, which is taken off as a quantity of -1."""

    order = models.ForeignKey(Order, on_delete=models.CASCADE, related_name="lines")
    position = models.PositiveSmallIntegerField()
    kind = models.CharField(max_length=10, choices=LineKind, default=LineKind.PLATE)
    text = models.CharField(max_length=120)
    quantity = models.SmallIntegerField(default=1)
    unit_amount = models.PositiveIntegerField(help_text="In the smallest unit (cents), tax included.")
    tax_class = models.ForeignKey(TaxClass, on_delete=models.PROTECT, related_name="+")
    tax_category = models.CharField(max_length=2)
    tax_rate_bp = models.PositiveSmallIntegerField()
    slot = models.OneToOneField(PlateSlot, null=True, on_delete=models.PROTECT, related_name="+")
    extra = models.ForeignKey(Extra, null=True, on_delete=models.PROTECT, related_name="+")
    discount = models.ForeignKey(Discount, null=True, on_delete=models.PROTECT, related_name="lines")

    class Meta:
        ordering = ["order_id", "position"]
        constraints = [
            models.UniqueConstraint(fields=["order", "position"], name="order_line_once"),
            models.CheckConstraint(
                name="order_line_of_its_kind",
                condition=Q(kind="plate", slot__isnull=False, extra=None, discount=None, quantity=1)
                | Q(kind="extra", slot=None, extra__isnull=False, discount=None, quantity__gte=1)
                | Q(kind="discount", slot=None, extra=None, discount__isnull=False, quantity=-1)
                | Q(
                    kind__in=["sitter", "travel", "late_move"],
                    slot=None,
                    extra=None,
                    discount=None,
                    quantity__gte=1,
                ),
                violation_error_message=(
                    "A line is one plate, at least one of an extra or a surcharge, or one discount taken off."
                ),
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
