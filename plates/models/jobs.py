"""The bench job: work promised on a bench. It is the one link between the diary and the plates."""

from datetime import datetime

from django.db import models
from django.db.models import Q

from plates import capacity
from plates.models.bench import BenchDay
from plates.models.sizes import PlateSize


class BenchJobQuerySet(models.QuerySet["BenchJob"]):
    def promised(self, now: datetime) -> "BenchJobQuerySet":
        """Jobs that take room on the bench at `now`: confirmed, or held and not yet lapsed."""
        return self.filter(Q(confirmed_at__isnull=False) | Q(held_until__gt=now), released_at__isnull=True)


class BenchJob(models.Model):
    """Plates promised from a start time, with the minute-by-minute plan that proves they can be made."""

    day = models.ForeignKey(BenchDay, on_delete=models.PROTECT, related_name="jobs")
    starts_at = models.DateTimeField("promised start")
    held_until = models.DateTimeField()
    confirmed_at = models.DateTimeField(null=True, blank=True)
    released_at = models.DateTimeField(null=True, blank=True)
    plan = models.JSONField(
        help_text="Minutes from the opening of the day, as the capacity engine planned them."
    )

    objects = BenchJobQuerySet.as_manager()

    class Meta:
        ordering = ["starts_at", "id"]
        indexes = [models.Index(fields=["day", "starts_at"])]

    def __str__(self) -> str:
        return f"job {self.pk} at {self.starts_at:%Y-%m-%d %H:%M} UTC"

    def counts(self, now: datetime) -> bool:
        """Whether this job takes room on the bench at `now`."""
        return self.released_at is None and (self.confirmed_at is not None or self.held_until > now)

    def as_booked(self) -> capacity.Booked:
        """This job as the capacity engine knows it; needs `day` and `slots__size` at hand."""
        sizes = tuple(slot.size.as_capacity() for slot in self.slots.all())
        return capacity.Booked(
            sitting=capacity.Sitting(start=self.day.minute(self.starts_at), plates=sizes),
            plan=capacity.SittingPlan.from_json(self.plan),
        )


class PlateSlot(models.Model):
    """One plate that a job promises. A spoilt plate is made again for the same slot."""

    job = models.ForeignKey(BenchJob, on_delete=models.CASCADE, related_name="slots")
    position = models.PositiveSmallIntegerField()
    size = models.ForeignKey(PlateSize, on_delete=models.PROTECT, related_name="+")

    class Meta:
        ordering = ["job_id", "position"]
        constraints = [models.UniqueConstraint(fields=["job", "position"], name="plate_slot_once")]

    def __str__(self) -> str:
        return f"{self.size} {self.position} of job {self.job_id}"
