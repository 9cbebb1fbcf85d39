"""Clients and what they agreed to."""

from django.db import models
from django.utils.translation import gettext_lazy as _


class Client(models.Model):
    """A person who booked. Every name, address and number of a person is kept here and on issued invoices only."""

    name = models.CharField(max_length=120)
    email = models.EmailField()
    phone = models.CharField(max_length=40, blank=True)
    company = models.CharField(max_length=120, blank=True, help_text="Whom the invoice is made out to.")
    address = models.TextField(max_length=300, blank=True, help_text="For the invoice and for the post.")
    country = models.CharField(max_length=2, blank=True, help_text="Two-letter code (ISO 3166-1).")
    tax_number = models.CharField(max_length=40, blank=True)
    created_at = models.DateTimeField()
    erased_at = models.DateTimeField(
        null=True, help_text="Who it was is gone; only invoices that must be kept know it."
    )

    class Meta:
        ordering = ["name", "id"]

    def __str__(self) -> str:
        return self.name


class ConsentPurpose(models.TextChoices):
    SHOW = "show", _("Show my portrait in the studio and its portfolio")
    NEWS = "news", _("Write to me about future sitting days")


class Consent(models.Model):
    """One answer to one question, kept with the words that were asked. A new answer is a new row."""

    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="consents")
    purpose = models.CharField(max_length=8, choices=ConsentPurpose)
    given = models.BooleanField()
    wording = models.CharField(max_length=300)
    at = models.DateTimeField()

    class Meta:
        ordering = ["id"]

    def __str__(self) -> str:
        return f"{self.purpose}: {'yes' if self.given else 'no'}"
