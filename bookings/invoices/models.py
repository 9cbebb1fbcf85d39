"""Invoices: numbered without gaps, frozen once issued. Field names give the terms of EN 16931."""

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from bookings.money import PricedLine
from bookings.orders.models import Order


class InvoiceSeries(models.Model):
    """The counter of one series and year. Its row is locked while a number is given out, so no number is lost."""

    prefix = models.CharField(max_length=12)
    year = models.PositiveSmallIntegerField()
    last = models.PositiveIntegerField(default=0)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["prefix", "year"], name="invoice_series_once")]

    def __str__(self) -> str:
        return f"{self.prefix}-{self.year}"


class DocumentKind(models.TextChoices):
    """With the code an electronic invoice uses (UNTDID 1001, BT-3)."""

    INVOICE = "380", _("Invoice")
    CREDIT_NOTE = "381", _("Credit note")


class Invoice(models.Model):
    """One issued invoice or credit note. Seller, buyer and sums are copies; the database refuses to change them.

    The sums of a credit note are written as positive ones, as the standard does: its kind says which way they go.
    """

    kind = models.CharField(max_length=3, choices=DocumentKind, default=DocumentKind.INVOICE)
    corrects = models.ForeignKey(
        "self",
        null=True,
        on_delete=models.PROTECT,
        related_name="credit_notes",
        help_text="The invoice that a credit note takes back (BT-25).",
    )
    reason = models.CharField(max_length=200, blank=True, help_text="Why it is taken back (BT-22).")
    series = models.ForeignKey(InvoiceSeries, on_delete=models.PROTECT, related_name="invoices")
    number = models.PositiveIntegerField()
    order = models.ForeignKey(Order, on_delete=models.PROTECT, related_name="invoices")
    turn = models.PositiveSmallIntegerField(
        default=1, help_text="The first document of its kind for the order, or a later one."
    )
    issued_on = models.DateField()
    supplied_on = models.DateField()
    due_on = models.DateField(null=True, help_text="Until when it is to be paid (BT-9).")
    currency = models.CharField(max_length=3)
    seller = models.JSONField(help_text="name, address, country, tax_number, email as printed")
    buyer = models.JSONField(help_text="name, email as printed")
    net = models.IntegerField("sum of lines (BT-106)")
    tax = models.IntegerField("tax (BT-110)")
    total = models.IntegerField("total with tax (BT-112)")
    prepaid = models.IntegerField("paid already (BT-113)")
    rounding = models.IntegerField("rounding (BT-114)")
    due = models.IntegerField("due (BT-115)")
    breakdown = models.JSONField(help_text="per tax category and rate: category, rate_bp, taxable, tax")

    class Meta:
        ordering = ["-issued_on", "-number"]
        constraints = [
            models.UniqueConstraint(fields=["series", "number"], name="invoice_number_once"),
            models.CheckConstraint(
                name="invoice_adds_up",
                condition=Q(total=models.F("net") + models.F("tax"))
                & Q(due=models.F("total") - models.F("prepaid") + models.F("rounding")),
                violation_error_message="The sums of this invoice do not add up.",
            ),
            models.UniqueConstraint(fields=["order", "kind", "turn"], name="invoice_turn_once"),
            models.CheckConstraint(
                name="invoice_credit_note_corrects",
                condition=Q(kind="380", corrects__isnull=True)
                | (Q(kind="381", corrects__isnull=False) & ~Q(reason="")),
                violation_error_message="A credit note names the invoice that it takes back, and says why.",
            ),
        ]

    def __str__(self) -> str:
        return self.label

    @property
    def label(self) -> str:
        """The number as printed, for example INV-2026-0042."""
        return f"{self.series}-{self.number:04d}"


class InvoiceLine(models.Model):
    """One frozen line."""

    invoice = models.ForeignKey(Invoice, on_delete=models.PROTECT, related_name="lines")
    position = models.PositiveSmallIntegerField()
    text = models.CharField(max_length=120)
    quantity = models.SmallIntegerField()
    credits = models.OneToOneField(
        "self",
        null=True,
        on_delete=models.PROTECT,
        related_name="credited_by",
        help_text="The line of an invoice that this one of a credit note takes back; each at most once.",
    )
    unit_amount = models.IntegerField(help_text="tax included, as the client was told")
    net = models.IntegerField("net amount (BT-131)")
    tax_category = models.CharField(max_length=2)
    tax_rate_bp = models.PositiveSmallIntegerField()

    class Meta:
        ordering = ["invoice_id", "position"]
        constraints = [models.UniqueConstraint(fields=["invoice", "position"], name="invoice_line_once")]

    def __str__(self) -> str:
        return self.text

    def as_priced(self) -> PricedLine:
        """The line as the money rules know it."""
        return PricedLine(
            text=self.text,
            quantity=self.quantity,
            unit_gross=self.unit_amount,
            tax_category=self.tax_category,
            rate_bp=self.tax_rate_bp,
        )


class InvoiceRun(models.Model):
    """Many invoices asked for at once. The drain issues them one by one, so that a page can say how far it is."""

    asked_at = models.DateTimeField()
    asked_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    by_mail = models.BooleanField(default=False)
    finished_at = models.DateTimeField(null=True)

    class Meta:
        ordering = ["-asked_at", "-id"]

    def __str__(self) -> str:
        return f"invoices asked for at {self.asked_at:%Y-%m-%d %H:%M}"


class InvoiceRunOrder(models.Model):
    """One order of a run: waiting, issued, or refused with a sentence."""

    run = models.ForeignKey(InvoiceRun, on_delete=models.CASCADE, related_name="orders")
    order = models.ForeignKey(Order, on_delete=models.PROTECT, related_name="+")
    invoice = models.ForeignKey(Invoice, null=True, on_delete=models.PROTECT, related_name="+")
    refused = models.CharField(max_length=300, blank=True)

    class Meta:
        ordering = ["id"]
        constraints = [models.UniqueConstraint(fields=["run", "order"], name="invoice_run_order_once")]

    def __str__(self) -> str:
        return f"{self.order} in {self.run}"


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
