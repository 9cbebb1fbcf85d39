"""Notices: what is to be told to whom, and whether it was. A row is written with what caused it and sent afterwards."""

from datetime import datetime

from django.db import models

from bookings.models.orders import Order


class NoticeKind(models.TextChoices):
    DEPOSIT_DUE = "deposit_due", "Place held, deposit due"
    CONFIRMED = "confirmed", "Sitting confirmed"
    NEW_TIME = "new_time", "A new time is needed"
    LATER = "later", "Sitting begins later"
    CANCELLED = "cancelled", "Sitting cancelled"
    READY = "ready", "Plates ready for pickup"


class NoticeQuerySet(models.QuerySet["Notice"]):
    def due(self, now: datetime) -> "NoticeQuerySet":
        """Letters to be sent at `now` that no sender has in hand."""
        waiting = self.filter(sent_at=None, given_up_at=None, withdrawn_at=None, due_at__lte=now)
        return waiting.filter(models.Q(claimed_until__isnull=True) | models.Q(claimed_until__lte=now))


class Notice(models.Model):
    """One letter to one client. Sent at least once; its Message-ID never changes, so a repeat can be recognised."""

    order = models.ForeignKey(Order, on_delete=models.CASCADE, related_name="notices")
    kind = models.CharField(max_length=12, choices=NoticeKind)
    occasion = models.CharField(
        max_length=40, help_text="What makes this one different from others of its kind."
    )
    message_id = models.CharField(max_length=120, unique=True)
    due_at = models.DateTimeField()
    claimed_until = models.DateTimeField(null=True, help_text="A sender has this letter in hand until then.")
    tries = models.PositiveSmallIntegerField(default=0)
    last_error = models.CharField(max_length=300, blank=True)
    sent_at = models.DateTimeField(null=True)
    given_up_at = models.DateTimeField(null=True, help_text="It could not be sent; the owner is shown it.")
    withdrawn_at = models.DateTimeField(null=True, help_text="It was no longer true when its time came.")

    objects = NoticeQuerySet.as_manager()

    class Meta:
        ordering = ["due_at", "id"]
        constraints = [models.UniqueConstraint(fields=["order", "kind", "occasion"], name="notice_once")]

    def __str__(self) -> str:
        return f"{self.kind} for {self.order}"
