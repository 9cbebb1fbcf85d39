"""Letters in the studio's own words."""

from django.db import models
from django.db.models import Q

from bookings.outbox.models import NoticeKind


class Wording(models.Model):
    """What a kind of letter says here; what is empty is said in our words."""

    kind = models.CharField(max_length=16, choices=NoticeKind, unique=True)
    subject = models.CharField(max_length=160, blank=True)
    text = models.TextField(max_length=4000, blank=True)
    changed_at = models.DateTimeField()

    class Meta:
        ordering = ["kind"]
        constraints = [
            models.CheckConstraint(
                name="wording_says_something",
                condition=~Q(subject="", text=""),
                violation_error_message="Write a subject or a text, or go back to our words.",
            )
        ]

    def __str__(self) -> str:
        return f"own words for {self.kind}"
