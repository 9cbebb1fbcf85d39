"""Invoices: numbered without gaps, frozen once issued. Field names give the terms of EN 16931."""

from django.db import models
from django.db.models import Q

from bookings.models.orders import Order


class InvoiceSeries(models.Model):
    """The counter of one series and year. Its row is locked while a number is given out, so no number is lost."""

    prefix = models.CharField(max_length=12)
    year = models.PositiveSmallIntegerField()
    last = models.PositiveIntegerField(default=0)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["prefix", "year"], name="invoice_series_once")]

    def __str__(self) -> str:
        return f"{self.prefix}-{self.year}"


class Invoice(models.Model):
    """One issued invoice. Seller, buyer and sums are copies; the database refuses to change them."""

    series = models.ForeignKey(InvoiceSeries, on_delete=models.PROTECT, related_name="invoices")
    number = models.PositiveIntegerField()
    order = models.OneToOneField(Order, on_delete=models.PROTECT, related_name="invoice")
    issued_on = models.DateField()
    supplied_on = models.DateField()
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
    quantity = models.PositiveSmallIntegerField()
    unit_amount = models.IntegerField(help_text="tax included, as the client was told")
    net = models.IntegerField("net amount (BT-131)")
    tax_category = models.CharField(max_length=2)
    tax_rate_bp = models.PositiveSmallIntegerField()

    class Meta:
        ordering = ["invoice_id", "position"]
        constraints = [models.UniqueConstraint(fields=["invoice", "position"], name="invoice_line_once")]

    def __str__(self) -> str:
        return self.text
