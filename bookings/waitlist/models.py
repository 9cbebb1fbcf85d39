"""The waiting list of a day: who would come if a place were free, in the order in which they asked."""

from django.db import models
from django.db.models import Q
from django.db.models.functions import Lower

from bookings.diary.models import SittingDay
from bookings.orders.models import Order


class Waiting(models.Model):
    """One person's wish for a day. It ends in an offer, in leaving, or in being struck off; each has one offer.

    The offer is an ordinary held order, so that one place is never offered twice.
    """

    day = models.ForeignKey(SittingDay, on_delete=models.PROTECT, related_name="waiting")
    key = models.UUIDField(unique=True, help_text="The form it was asked with; sent twice it is one.")
    name = models.CharField(max_length=120, blank=True)
    email = models.EmailField(blank=True)
    wish = models.JSONField(help_text="Plates in their order, extras, people and code, by row number.")
    earliest = models.DateTimeField("start not before")
    latest = models.DateTimeField("start not after")
    asked_at = models.DateTimeField()
    offered_at = models.DateTimeField(null=True)
    order = models.OneToOneField(Order, null=True, on_delete=models.PROTECT, related_name="waited")
    left_at = models.DateTimeField(null=True)
    struck_at = models.DateTimeField("struck off", null=True)
    seen = models.CharField(
        max_length=40, blank=True, help_text="For which standing of the day no place was found."
    )
    passed_over = models.CharField(
        max_length=300, blank=True, help_text="Why a place that was free could not be offered."
    )

    class Meta:
        ordering = ["day_id", "id"]
        constraints = [
            models.UniqueConstraint(
                "day",
                Lower("email"),
                name="waiting_once",
                condition=Q(offered_at=None, left_at=None, struck_at=None) & ~Q(email=""),
                violation_error_message="This address waits for that day already.",
            ),
            models.CheckConstraint(
                name="waiting_hours",
                condition=Q(earliest__lte=models.F("latest")),
                violation_error_message="The first hour comes before the last one.",
            ),
            models.CheckConstraint(
                name="waiting_offer_is_an_order",
                condition=Q(offered_at=None, order=None) | Q(offered_at__isnull=False, order__isnull=False),
                violation_error_message="What is offered is a held order.",
            ),
            models.CheckConstraint(
                name="waiting_one_end",
                condition=Q(left_at=None) | Q(struck_at=None),
                violation_error_message="Somebody leaves the list or is struck off it, not both.",
            ),
        ]

    def __str__(self) -> str:
        return f"waiting {self.pk} for {self.day}"
