"""The studio itself: one row, printed at the head of every paper."""

from babel import Locale, UnknownLocaleError
from django.core.exceptions import ValidationError
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext as _


def validate_locale(name: str) -> None:
    try:
        Locale.parse(name)
    except (ValueError, UnknownLocaleError) as error:
        raise ValidationError(_("Use a language with its country, for example en_GB or de_DE.")) from error


class Studio(models.Model):
    """Who issues the invoices and how long a place is kept for someone who has not paid yet."""

    name = models.CharField(max_length=80)
    address = models.TextField(max_length=300)
    country = models.CharField(max_length=2, help_text="Two-letter code (ISO 3166-1).")
    email = models.EmailField()
    phone = models.CharField(max_length=40, blank=True)
    tax_number = models.CharField(max_length=40, blank=True)
    currency = models.CharField(max_length=3, default="EUR", help_text="Three-letter code (ISO 4217).")
    locale = models.CharField(
        max_length=12,
        default="en_GB",
        validators=[validate_locale],
        help_text="Language and country, for example de_DE: the words of pages and papers, amounts and dates.",
    )
    invoice_series = models.CharField(max_length=12, default="INV")
    credit_series = models.CharField(max_length=12, default="CRN")
    payment_days = models.PositiveSmallIntegerField(
        default=14, help_text="An invoice is due that many days after it was issued."
    )
    invoice_years = models.PositiveSmallIntegerField(
        default=10,
        validators=[MinValueValidator(1), MaxValueValidator(99)],
        help_text="How many years after the year of issue invoices are kept; ask your accountant.",
    )
    account = models.CharField(
        "bank account (IBAN)", max_length=34, blank=True, help_text="Printed on invoices that are still due."
    )
    voucher_months = models.PositiveSmallIntegerField(
        null=True,
        blank=True,
        default=36,
        validators=[MinValueValidator(1)],
        help_text="How long a gift voucher can be used; empty: without end.",
    )
    voucher_least = models.PositiveIntegerField(
        "smallest voucher", default=1000, help_text="In the smallest unit (cents)."
    )
    voucher_most = models.PositiveIntegerField(
        "largest voucher",
        null=True,
        blank=True,
        default=100_000,
        help_text="In the smallest unit (cents); empty: vouchers are sold at the desk only.",
    )
    hold_minutes = models.PositiveSmallIntegerField(
        default=20,
        validators=[MinValueValidator(1)],
        help_text="How long a place is kept while the client fills in the form.",
    )
    deposit_hours = models.PositiveSmallIntegerField(
        default=48,
        validators=[MinValueValidator(1), MaxValueValidator(72)],
        help_text="How long a place is then kept for the deposit; at most 72, as long as the link to pay opens.",
    )
    offer_minutes = models.PositiveSmallIntegerField(
        default=120,
        validators=[MinValueValidator(10), MaxValueValidator(72 * 60)],
        help_text="How long a place that became free is kept for whom it is offered from the waiting list.",
    )
    consent_months = models.PositiveSmallIntegerField(
        "months until answers are looked at again",
        null=True,
        blank=True,
        default=24,
        validators=[MinValueValidator(1)],
        help_text="So long after the plates were handed over, clients who said yes are asked again; empty: never.",
    )
    how_to_pay = models.TextField(
        max_length=500, blank=True, help_text="Told to clients: bank details, or where to bring the deposit."
    )

    class Meta:
        constraints = [
            models.CheckConstraint(name="studio_one_row", condition=Q(id=1)),
            models.CheckConstraint(
                name="studio_two_series",
                condition=~Q(invoice_series=models.F("credit_series")),
                violation_error_message="Invoices and credit notes are numbered in series of their own.",
            ),
            models.CheckConstraint(
                name="studio_voucher_bounds",
                condition=Q(voucher_least__gt=0)
                & (Q(voucher_most__isnull=True) | Q(voucher_most__gte=models.F("voucher_least"))),
                violation_error_message="The largest voucher is worth no less than the smallest, which is above 0.",
            ),
        ]

    def __str__(self) -> str:
        return self.name
