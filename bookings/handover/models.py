"""Plates that left the house: to whom, by whose hand, and by which carrier.

What happened is never changed. Names are kept in rows of their own, which can be forgotten when a client asks for it.
"""

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from bookings.orders.models import Order
from plates.bench.models import PlateEvent


class HandedTo(models.TextChoices):
    CLIENT = "client", _("The client")
    NAMED = "named", _("The person the client named")
    POST = "post", _("The post")


class NamedPerson(models.Model):
    """Whom a client has named to collect the plates of an order; the newest one holds unless it was taken back."""

    order = models.ForeignKey(Order, on_delete=models.CASCADE, related_name="named_people")
    name = models.CharField(_("name"), max_length=120)
    named_at = models.DateTimeField()
    taken_back_at = models.DateTimeField(null=True)

    class Meta:
        ordering = ["-named_at", "-id"]
        constraints = [
            models.UniqueConstraint(
                fields=["order"],
                condition=models.Q(taken_back_at__isnull=True),
                name="named_person_one_at_a_time",
                violation_error_message=_("One person at a time can be named."),
            )
        ]

    def __str__(self) -> str:
        return self.name


class Handover(models.Model):
    """Plates given out of the house at one moment. Append-only; the names of it stand in its Receipt."""

    order = models.ForeignKey(Order, on_delete=models.PROTECT, related_name="handovers")
    to = models.CharField(max_length=8, choices=HandedTo)
    by_code = models.BooleanField(help_text=_("The code of the order was shown."))
    at = models.DateTimeField()
    operator = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, on_delete=models.PROTECT, related_name="+"
    )
    press = models.UUIDField(unique=True, help_text=_("The same press is the same handover."))

    class Meta:
        ordering = ["id"]

    def __str__(self) -> str:
        return f"{self.order} handed to {self.to} at {self.at:%Y-%m-%d %H:%M} UTC"


class HandedPlate(models.Model):
    """One plate of a handover, by the event in its ledger. Append-only."""

    handover = models.ForeignKey(Handover, on_delete=models.PROTECT, related_name="plates")
    event = models.OneToOneField(PlateEvent, on_delete=models.PROTECT, related_name="+")

    class Meta:
        ordering = ["id"]

    def __str__(self) -> str:
        return f"event {self.event_id} of handover {self.handover_id}"


class Receipt(models.Model):
    """Who signed for a handover, in their own typing, and what was noted. Forgotten with the client."""

    handover = models.OneToOneField(Handover, on_delete=models.PROTECT, related_name="receipt")
    signed = models.CharField(_("received by"), max_length=120, blank=True)
    note = models.CharField(max_length=200, blank=True)

    def __str__(self) -> str:
        return f"receipt of handover {self.handover_id}"


class Parcel(models.Model):
    """A handover to the post: which carrier has it, and under which number it can be followed."""

    handover = models.OneToOneField(Handover, on_delete=models.PROTECT, related_name="parcel")
    carrier = models.CharField(max_length=60)
    number = models.CharField(_("number of the parcel"), max_length=60)

    def __str__(self) -> str:
        return f"{self.carrier} {self.number}"
