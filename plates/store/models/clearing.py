"""How long a fixer takes to clear a plate: it tells that the fixer is spent, before its area does or after it."""

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from plates.store.models.batches import Batch


class ClearingTime(models.Model):
    """Seconds until a plate was clear in this fixer; the first one noted counts as that of the fresh fixer."""

    batch = models.ForeignKey(Batch, on_delete=models.PROTECT, related_name="clearing_times")
    seconds = models.PositiveSmallIntegerField()
    at = models.DateTimeField()
    operator = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, on_delete=models.PROTECT, related_name="+"
    )

    class Meta:
        ordering = ["at", "id"]
        constraints = [
            models.CheckConstraint(
                name="clearing_takes_time",
                condition=Q(seconds__gte=1, seconds__lte=3600),
                violation_error_message=_("A plate clears in a second or more, and within an hour."),
            )
        ]

    def __str__(self) -> str:
        return f"{self.batch_id} clears in {self.seconds} s"
