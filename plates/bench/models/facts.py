"""What the operator notes about a plate. Told, never worked out; unlike the ledger's events it may be put right."""

from decimal import Decimal

from django.conf import settings
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q

from plates.bench.models.plates import Plate

LONGEST_SECONDS = 3600
SHORTEST_EXPOSURE = Decimal("0.001")  # seconds: a flash tube's own
SECONDS = [MinValueValidator(1), MaxValueValidator(LONGEST_SECONDS)]
EXPOSURES = [MinValueValidator(SHORTEST_EXPOSURE), MaxValueValidator(LONGEST_SECONDS)]


class PlateFacts(models.Model):
    """The facts of one plate; without a row nothing was noted yet. `picture` is a file name in the pictures' store."""

    plate = models.OneToOneField(Plate, on_delete=models.PROTECT, related_name="facts")
    batch = models.CharField("batch of collodion", max_length=40, blank=True)
    bath = models.CharField("silver bath", max_length=40, blank=True)
    bath_seconds = models.PositiveSmallIntegerField(null=True, blank=True, validators=SECONDS)
    exposure_seconds = models.DecimalField(
        max_digits=7, decimal_places=3, null=True, blank=True, validators=EXPOSURES
    )
    lens = models.CharField(max_length=80, blank=True)
    developer_seconds = models.PositiveSmallIntegerField(null=True, blank=True, validators=SECONDS)
    notes = models.TextField(max_length=2000, blank=True)
    picture = models.CharField(max_length=60, blank=True)
    changed_at = models.DateTimeField()
    changed_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, on_delete=models.PROTECT, related_name="+"
    )

    class Meta:
        verbose_name_plural = "plate facts"
        constraints = [
            models.CheckConstraint(
                name="plate_facts_take_time",
                condition=(Q(bath_seconds__isnull=True) | Q(bath_seconds__gt=0))
                & (Q(exposure_seconds__isnull=True) | Q(exposure_seconds__gt=0))
                & (Q(developer_seconds__isnull=True) | Q(developer_seconds__gt=0)),
                violation_error_message="Bath, exposure and development take longer than no time.",
            )
        ]

    def __str__(self) -> str:
        return f"facts of plate {self.plate_id}"
